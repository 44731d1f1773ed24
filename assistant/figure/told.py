"""A picture in words, for whoever does not see it: what the card says it looks like, and who carries what."""

from __future__ import annotations

from collections.abc import Sequence

from assistant.body import Pose
from assistant.figure.forces import Share
from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Exercise

WORDS = "figure"  # the card of the kind `order` with the words


def told(card: Exercise, poses: Sequence[Pose], shares: Sequence[Sequence[Share]], book: Rulebook) -> str:
    """The text alternative of a picture: one sentence on how it looks, one for each key pose on the weight."""
    words = book.orders[WORDS].texts
    carried = [_carried(pose, found, words) for pose, found in zip(poses, shares, strict=True)]
    sentences = [words["looks"].format(looks="; ".join(card.looks) or card.name)]
    if len(set(carried)) == 1:
        sentences += [words["alone"].format(shares=one) for one in carried[:1] if one]
    else:
        for place, one in zip(_places(poses, words), carried, strict=True):
            sentences.append(words["place"].format(place=place, shares=one or words["nothing"]))
    return " ".join(sentences)


def _places(poses: Sequence[Pose], words: dict[str, str]) -> list[str]:
    """What the key poses are called: by the arms where nothing else differs, else by their order."""
    if len({pose._replace(arms="straight") for pose in poses}) == 1:
        return [words[pose.arms] for pose in poses]
    names = ("first", "then", "last")
    return [words[names[n]] for n in range(len(poses))]


def _carried(pose: Pose, found: Sequence[Share], words: dict[str, str]) -> str:
    told = []
    for one in found:
        contact = one.contact
        if contact.what in ("load", "help"):
            name = "band" if contact.what == "help" and pose.band_kg else contact.what
            told.append(words[name].format(percent=one.percent))
            continue
        alone = (pose.one_hand and contact.limb == "arms") or (pose.one_foot and contact.limb == "legs")
        name = contact.what + ("_one" if alone or (pose.shape == "split" and contact.limb == "legs") else "")
        told.append(words["share"].format(percent=one.percent, what=words[name]))
    return words["and"].join(told)
