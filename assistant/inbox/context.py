"""From what the archive knows to a `Message` the verbs can read: the day, the profile, the thread so far."""

from __future__ import annotations

from typing import Any

from assistant.store import Archive
from assistant.values import Message, Plan, Profile, Turn


def profile_of(archive: Archive, coach: str, follower: dict[str, Any]) -> Profile:
    """What is remembered about a follower, with what is held back."""
    kept = follower["profile"]
    return Profile(
        name=follower["name"],
        has=tuple(kept.get("has", ())),
        limits=tuple(kept.get("limits", ())),
        can=tuple(kept.get("can", {}).items()),
        held=tuple(sorted({hold["part"] for hold in archive.holds.in_force(coach, follower["id"])})),
    )


def message_of(
    archive: Archive, coach: str, follower: dict[str, Any], said: dict[str, Any], plan: Plan | None
) -> Message:
    """`said` (text, item, received, thread and place, the latter None for a new one) with all that explains it."""
    turns = turns_before(archive, coach, said)
    return Message(
        text=said["text"],
        plan=plan,
        item=said["item"],
        profile=profile_of(archive, coach, follower),
        thread=tuple(_turn(turn) for turn in turns),
        at=said["received"],
    )


def turns_before(archive: Archive, coach: str, said: dict[str, Any]) -> list[dict[str, Any]]:
    """The turns of the thread that came before `said`, oldest first."""
    if said["thread"] is None:
        return []
    earlier = archive.messages.of_thread(coach, said["thread"])
    if said["place"] is not None:
        earlier = [row for row in earlier if row["place"] < said["place"]]
    return [turn for turn in turns_of(earlier) if turn["at"] <= said["received"]]


def turns_of(rows: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Messages and their replies as one conversation in order of time; a reply shows no summary, rule or refusal."""
    turns = []
    for row in rows:
        asked = tuple(one["id"] for one in row["result"]["question"]["exercises"])
        both = {"id": row["id"], "item": row["item"], "status": row["status"]}
        turns.append({**both, "by": "follower", "text": row["text"], "at": row["received"], "notice": row["notice"],
                      "swaps": [], "exercises": asked, "asked_back": False, "outcome": None})  # fmt: skip
        if row["reply"]:
            reply = row["reply"]
            chosen = tuple(swap["exercise"] for swap in reply["swaps"])
            turns.append({**both, "by": "coach", "text": reply["text"], "at": reply["at"], "notice": None,
                          "swaps": reply["swaps"], "exercises": asked if reply["asked_back"] else chosen,
                          "asked_back": reply["asked_back"], "outcome": reply["outcome"]})  # fmt: skip
    return sorted(turns, key=lambda turn: turn["at"])


def _turn(turn: dict[str, Any]) -> Turn:
    return Turn(turn["by"], turn["text"], turn["item"], turn["exercises"], turn["asked_back"])
