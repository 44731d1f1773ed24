"""Who may come in: coaches with a password, their own sites with a key, followers with a link; and their days.

Session ids and keys are random and only their SHA-256 is kept (they hold 256 bits, so a fast hash is enough);
passwords are kept as argon2id.
"""

from __future__ import annotations

import hashlib
import re
import secrets
from datetime import timedelta
from functools import cache
from typing import Any

from pwdlib import PasswordHash
from pwdlib.hashers.argon2 import Argon2Hasher

from assistant.inbox import memory
from assistant.inbox.desk import NAME_MAX, Desk, iso, known, new_id, words
from assistant.values import BadInput, NotAllowed, NotFound, Plan, Profile

PASSWORD_MIN = 10
_passwords = PasswordHash((Argon2Hasher(),))


def add_coach(desk: Desk, coach: str, name: str, password: str) -> None:
    """See `Inbox.add_coach`."""
    if not re.fullmatch(r"[a-z0-9][a-z0-9-]{0,62}", coach):
        raise BadInput("a coach's id is 1 to 63 small letters, digits and hyphens, and begins with no hyphen")
    if len(password) < PASSWORD_MIN:
        raise BadInput(f"the password has {len(password)} characters and {PASSWORD_MIN} are the fewest")
    name, hashed = words(name, "the coach's name", NAME_MAX), _passwords.hash(password)
    with desk.store.writing() as archive:
        archive.people.add_coach(coach, name, hashed, desk.time())
        archive.people.drop_sign_ins(coach)


def sign_in(desk: Desk, coach: str, password: str, hours: float) -> str:
    """See `Inbox.sign_in`. An unknown coach takes as long as a wrong password and is told the same."""
    with desk.store.reading() as archive:
        found = archive.people.coach(coach)
    right = _passwords.verify(password, found["password"] if found else _nobody())
    if not (found and right):
        raise NotAllowed("this name and password do not go together")
    session, now = secrets.token_urlsafe(32), desk.clock()
    with desk.store.writing() as archive:
        archive.people.add_sign_in(coach, _hash(session), iso(now), iso(now + timedelta(hours=hours)))
    return session


def signed_in(desk: Desk, session: str) -> str | None:
    """See `Inbox.signed_in`."""
    with desk.store.reading() as archive:
        return archive.people.signed_in(_hash(session), desk.time())


def sign_out(desk: Desk, session: str) -> None:
    """See `Inbox.sign_out`."""
    with desk.store.writing() as archive:
        archive.people.drop_sign_in(_hash(session))


def sign_out_everywhere(desk: Desk, coach: str) -> None:
    """See `Inbox.sign_out_everywhere`."""
    with desk.store.writing() as archive:
        archive.people.drop_sign_ins(coach)


def coach_name(desk: Desk, coach: str) -> str:
    """See `Inbox.coach_name`."""
    with desk.store.reading() as archive:
        found = archive.people.coach(coach)
    if found is None:
        raise NotFound("no such coach")
    return found["name"]


def coaches(desk: Desk) -> list[str]:
    """See `Inbox.coaches`."""
    with desk.store.reading() as archive:
        return archive.people.coaches()


def add_key(desk: Desk, coach: str, label: str) -> str:
    """See `Inbox.add_key`."""
    coach_name(desk, coach)
    key, label = secrets.token_urlsafe(32), words(label, "the key's label", NAME_MAX)
    with desk.store.writing() as archive:
        archive.people.add_key(coach, new_id(), _hash(key), label, desk.time())
    return key


def coach_of_key(desk: Desk, key: str) -> str | None:
    """See `Inbox.coach_of_key`."""
    with desk.store.reading() as archive:
        return archive.people.coach_of_key(_hash(key))


def keys(desk: Desk, coach: str) -> list[dict[str, str]]:
    """See `Inbox.keys`."""
    with desk.store.reading() as archive:
        return archive.people.keys(coach)


def drop_key(desk: Desk, coach: str, key_id: str) -> None:
    """See `Inbox.drop_key`."""
    with desk.store.writing() as archive:
        if not archive.people.drop_key(coach, key_id):
            raise NotFound("no such key")


def add_follower(desk: Desk, coach: str, name: str, profile: Profile, since: str) -> dict[str, Any]:
    """See `Inbox.add_follower`."""
    coach_name(desk, coach)
    book = desk.book()
    _check("equipment", profile.has, book.equipment)
    _check("limit", profile.limits, book.limits)
    _check("exercise", [exercise for exercise, _ in profile.can], book.exercises)
    name, id = words(name, "the follower's name", NAME_MAX), new_id()
    with desk.store.writing() as archive:
        now = desk.time()
        archive.people.add_follower(coach, id, secrets.token_urlsafe(24), name, memory.kept(profile), since or now)
        return _public(archive.people.follower(coach, id))


def follower(desk: Desk, token: str) -> dict[str, Any]:
    """See `Inbox.follower`."""
    with desk.store.reading() as archive:
        found = archive.people.follower_by_token(token)
    if found is None:
        raise NotFound("there is no follower behind this link: ask your coach for a new one")
    return _public(found)


def followers(desk: Desk, coach: str) -> list[dict[str, Any]]:
    """See `Inbox.followers`."""
    with desk.store.reading() as archive:
        return [_public(one) for one in archive.people.followers(coach)]


def add_plan(desk: Desk, coach: str, plan: Plan) -> None:
    """See `Inbox.add_plan`."""
    coach_name(desk, coach)
    if not plan.id.strip() or len(plan.id) > NAME_MAX or not plan.items:
        raise BadInput(f"a plan has an id of 1 to {NAME_MAX} characters and at least one item")
    items = [item.item for item in plan.items]
    twice = sorted({item for item in items if items.count(item) > 1})
    if twice:
        raise BadInput(f"the plan '{plan.id}' has the item {', '.join(twice)} twice: give each item its own name")
    if plan.day and not re.fullmatch(r"\d{4}-\d\d-\d\d", plan.day):
        raise BadInput(f"the day of the plan '{plan.id}' is no date, found '{plan.day[:20]}': write 2026-03-02")
    _check("exercise", [item.exercise for item in plan.items], desk.book().exercises)
    with desk.store.writing() as archive:
        archive.plans.put(coach, plan, desk.time())


def plan(desk: Desk, coach: str, plan: str) -> Plan:
    """See `Inbox.plan`."""
    with desk.store.reading() as archive:
        found = archive.plans.one(coach, plan)
        ids = archive.plans.ids(coach)
    if found is None:
        raise NotFound(f"there is no plan '{plan[:80]}'; {known(ids)}")
    return found


def tasks(desk: Desk, coach: str) -> list[dict[str, Any]]:
    """See `Inbox.tasks`."""
    with desk.store.reading() as archive:
        return [{"message": task["message"], "since": task["since"]} for task in archive.holds.tasks(coach)]


def healthy(desk: Desk) -> bool:
    """See `Inbox.healthy`."""
    return desk.store.alive() and bool(desk.book().fingerprint)


def _check(kind: str, ids: Any, shelf: dict[str, Any]) -> None:
    unknown = sorted({id for id in ids if id not in shelf})
    if unknown:
        raise BadInput(f"the rulebook has no {kind} called {', '.join(unknown)}: correct the name or add a card")


def _public(follower: dict[str, Any]) -> dict[str, Any]:
    return {name: follower[name] for name in ("coach", "id", "token", "name", "since")}


def _hash(secret: str) -> str:
    return hashlib.sha256(secret.encode()).hexdigest()


@cache
def _nobody() -> str:
    """The hash of a password nobody has, so that an unknown name costs the same time."""
    return _passwords.hash(secrets.token_urlsafe(16))
