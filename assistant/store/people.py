"""Coaches, their sign-ins and keys, and followers with what is remembered about them."""

from __future__ import annotations

from typing import Any

from sqlalchemy import bindparam, delete, select, update
from sqlalchemy.orm import Session

from assistant.store.tables import ApiKey, Coach, Follower, SignIn

# built once: every message that comes in asks for it
_WHO, _TOKEN = select(Follower.coach, Follower.id), Follower.token == bindparam("known")
_BY_TOKEN = _WHO.where(_TOKEN)
_BY_EITHER = _WHO.where(Follower.coach == bindparam("coach"), _TOKEN | (Follower.id == bindparam("known")))


class People:
    """Everyone the archive knows, within one transaction."""

    def __init__(self, session: Session):
        self._session = session

    # -- coaches -----------------------------------------------------------------------------------------------
    def add_coach(self, coach: str, name: str, password: str, since: str) -> None:
        """A new coach, or a new name and password hash for a known one."""
        known = self._session.get(Coach, coach)
        if known:
            known.name, known.password = name, password
        else:
            self._session.add(Coach(coach=coach, name=name, password=password, since=since))
            self._session.flush()

    def coach(self, coach: str) -> dict[str, str] | None:
        """{"coach", "name", "password"} (the hash), or None."""
        found = self._session.get(Coach, coach)
        return {"coach": found.coach, "name": found.name, "password": found.password} if found else None

    def coaches(self) -> list[str]:
        """The ids of all coaches."""
        return list(self._session.scalars(select(Coach.coach).order_by(Coach.coach)))

    # -- sign-ins and keys -------------------------------------------------------------------------------------
    def add_sign_in(self, coach: str, hash: str, since: str, until: str) -> None:
        """A signed-in browser; sign-ins of this coach that ran out by `since` are forgotten."""
        self._session.execute(delete(SignIn).where(SignIn.coach == coach, SignIn.until <= since))
        self._session.add(SignIn(coach=coach, hash=hash, since=since, until=until))

    def signed_in(self, hash: str, now: str) -> str | None:
        """The coach of a sign-in that has not run out at `now`."""
        return self._session.scalar(select(SignIn.coach).where(SignIn.hash == hash, SignIn.until > now))

    def drop_sign_in(self, hash: str) -> None:
        """Sign one browser out."""
        self._session.execute(delete(SignIn).where(SignIn.hash == hash))

    def drop_sign_ins(self, coach: str) -> None:
        """Sign every browser of the coach out."""
        self._session.execute(delete(SignIn).where(SignIn.coach == coach))

    def add_key(self, coach: str, id: str, hash: str, label: str, since: str) -> None:
        """A key for the coach's own site."""
        self._session.add(ApiKey(coach=coach, id=id, hash=hash, label=label, since=since))

    def coach_of_key(self, hash: str) -> str | None:
        """The coach whose key has this hash."""
        return self._session.scalar(select(ApiKey.coach).where(ApiKey.hash == hash))

    def keys(self, coach: str) -> list[dict[str, str]]:
        """{"id", "label", "since"} of every key of the coach."""
        found = self._session.scalars(select(ApiKey).where(ApiKey.coach == coach).order_by(ApiKey.since, ApiKey.id))
        return [{"id": key.id, "label": key.label, "since": key.since} for key in found]

    def drop_key(self, coach: str, id: str) -> bool:
        """Revoke a key; False when there is none of that id."""
        return bool(self._session.execute(delete(ApiKey).where(ApiKey.coach == coach, ApiKey.id == id)).rowcount)

    # -- followers ---------------------------------------------------------------------------------------------
    def add_follower(self, coach: str, id: str, token: str, name: str, profile: dict[str, Any], since: str) -> None:
        """A new follower."""
        self._session.add(Follower(coach=coach, id=id, token=token, name=name, profile=profile, since=since, version=1))

    def follower(self, coach: str, id_or_token: str, lock: bool = False) -> dict[str, Any] | None:
        """The follower of this coach; with `lock` nobody else changes it until the transaction ends."""
        return self._one_follower(
            select(Follower).where(
                Follower.coach == coach, (Follower.id == id_or_token) | (Follower.token == id_or_token)
            ),
            lock,
        )

    def sender(self, coach: str | None, id_or_token: str) -> tuple[str, str] | None:
        """Coach and id of a follower: by token or id where the coach is known, else by the token."""
        query = _BY_TOKEN if coach is None else _BY_EITHER
        row = self._session.connection().execute(query, {"coach": coach, "known": id_or_token}).one_or_none()
        return (row.coach, row.id) if row else None

    def follower_by_token(self, token: str) -> dict[str, Any] | None:
        """The follower behind an unguessable link, whoever the coach."""
        return self._one_follower(select(Follower).where(Follower.token == token), False)

    def followers(self, coach: str) -> list[dict[str, Any]]:
        """All followers of the coach, by name."""
        found = self._session.scalars(
            select(Follower).where(Follower.coach == coach).order_by(Follower.name, Follower.id)
        )
        return [_follower(one) for one in found]

    def remember(self, coach: str, follower: str, profile: dict[str, Any]) -> None:
        """Put `profile` in the place of what was remembered."""
        self._change(coach, follower, profile=profile)

    def touch(self, coach: str, follower: str) -> None:
        """Say that something about the follower changed that is kept elsewhere (a hold)."""
        self._change(coach, follower)

    def _change(self, coach: str, follower: str, **values: Any) -> None:
        self._session.execute(
            update(Follower)
            .where(Follower.coach == coach, Follower.id == follower)
            .values(version=Follower.version + 1, **values)
        )

    def _one_follower(self, query: Any, lock: bool) -> dict[str, Any] | None:
        if lock:
            query = query.with_for_update()
        found = self._session.scalar(query.execution_options(populate_existing=True))
        return _follower(found) if found else None


def _follower(row: Follower) -> dict[str, Any]:
    return {name: getattr(row, name) for name in ("coach", "id", "token", "name", "profile", "since", "version")}
