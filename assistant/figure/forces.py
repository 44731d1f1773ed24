"""Contact forces as arrows with their share of body weight, rounded as far as the model can be trusted."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from assistant.body import Contact, Held, asked
from assistant.figure.marks import LABEL_SIZE, Label, Mark, Stroke

STEP = 5  # percent
_GAP = 3.6  # from the point to the arrow: half a limb and the line it stands on
_SHORT, _LONGER = 7.0, 13.0  # length of an arrow for nothing, and what a whole body weight adds
_HEAD = 3.4
_APART = 28.0  # units; the labels of two arrows nearer than this lean away from each other
_LEAN = 9.0
_STEEP = 0.7  # an arrow from below is at least this upright
_SLANT = 0.5  # one from below that slants more than this has its label to the side
_BESIDE = 2.6
_OFF_BODY = 9.5
_HANDS = ("hand_share", "grip_share")


class Share(NamedTuple):
    """A contact with its share of body weight, the mean of all builds as on the card."""

    contact: Contact
    share: float

    @property
    def percent(self) -> int:
        """The share as it is shown.

        >>> Share(Contact(0j, 0.66j, "arms"), 0.66).percent
        65
        """
        return round(100 * self.share / STEP) * STEP


def shares(builds: Sequence[Held]) -> list[Share]:
    """The contacts worth an arrow. A body at rest on the floor has none: there the floor carries what it touches."""
    told = [[_share(one, contact) for contact in one.contacts] for one in builds]
    means = [sum(column) / len(builds) for column in zip(*told, strict=True)]
    found = [Share(contact, mean) for contact, mean in zip(builds[0].contacts, means, strict=True)]
    return [one for one in found if one.percent and one.contact.what != "seat"]


def _share(held: Held, contact: Contact) -> float:
    if contact.limb == "arms" and contact.what != "load":
        found = asked(held)  # the demand counts one hand double, the arrow shows what that hand carries
        return next(found[name] for name in _HANDS if name in found) * held.figure.arms[contact.which].limbs / 2
    return contact.force.imag if contact.limb == "legs" else abs(contact.force)


def arrows(held: Held, found: Sequence[Share], scale: float) -> list[Mark]:
    """An arrow for each share, on the far side of what the body presses against, or beyond what it hangs from."""
    below = sorted(one.contact.point.real * scale for one in found if one.contact.limb in ("arms", "legs"))
    crowded = len(below) > 1 and below[-1] - below[0] < _APART
    drawn: list[Mark] = []
    for one in found:
        first = one.contact.point.real * scale == below[0] if below else True
        drawn += _arrow(held, one, scale, ("end" if first else "start") if crowded else "middle")
    return drawn


def _arrow(held: Held, one: Share, scale: float, anchor: str) -> list[Mark]:
    contact = one.contact
    way = contact.force / abs(contact.force)
    long = _SHORT + _LONGER * one.share
    aside = _aside(held, contact, scale)
    point = contact.point * scale + aside
    pushes = _pushes(held, contact)
    if pushes:
        tip = point - way * _GAP
        tail = tip - way * long
    else:
        tail = point + way * _GAP
        tip = tail + way * long
    head = tuple(tip - way * _HEAD * turned for turned in (1 + 0.62j, 0j, 1 - 0.62j))
    outer, outward = (tail, -way) if pushes else (tip, way)
    if aside or _crossed(held, contact):
        label = _beside(one, aside, way, (tail + tip) / 2)
    else:
        label = _beyond(one, outer, outward, anchor)
    return [Stroke("force", (tail, tip)), Stroke("force", head), label]


def _crossed(held: Held, contact: Contact) -> bool:
    """Whether something is drawn beyond the arrow: a band, or the legs under a hand that hangs with its weight."""
    return contact.what == "load" and (
        held.pose.load_from in ("front", "behind", "above") or not _pushes(held, contact)
    )


def _aside(held: Held, contact: Contact, scale: float) -> complex:
    """What would be drawn upon the body is drawn beside it: help and a load on the body in front of one that hangs,
    behind one that stands; the push of a handle behind a body that is let down between its hands."""
    figure, hanging = held.figure, held.pose.shape in ("hang", "support")
    if contact.limb == "trunk" and contact.what in ("help", "load"):
        rearmost = min(figure.hip.real, figure.shoulder.real) - contact.point.real
        return complex(_OFF_BODY if hanging else rearmost * scale - _OFF_BODY)
    lets_down = min(leg.ankle.imag for leg in figure.legs) < contact.point.imag - figure.build.shank.length / 2
    if contact.limb == "arms" and held.pose.shape == "support" and lets_down:
        return complex(-_OFF_BODY)
    return 0j


def _pushes(held: Held, contact: Contact) -> bool:
    """Whether the force drives the point towards the body, so that the arrow ends at the point."""
    figure = held.figure
    inner = {"arms": figure.shoulder, "legs": figure.hip}.get(contact.limb, (figure.hip + figure.shoulder) / 2)
    if contact.what in ("bar", "rings", "load"):
        inner = inner if contact.what == "load" else figure.centre()[1]
        return ((inner - contact.point).conjugate() * contact.force).real > 0
    return True


def _text(one: Share) -> str:
    return f"{one.percent}\u202f%"


def _beyond(one: Share, end: complex, outward: complex, anchor: str) -> Label:
    """Beyond the outer end of an arrow: under it, over it, or to its side when it is more level than upright.

    Two labels under arrows that stand close lean away from each other."""
    if abs(outward.imag) < _SLANT:
        anchor = "start" if outward.real > 0 else "end"
        return Label(end + _BESIDE * outward - 0.36j * LABEL_SIZE, _text(one), anchor)
    if outward.imag > 0:
        return Label(end + 1j * _BESIDE, _text(one))
    aside = {"middle": 0.0, "start": -_LEAN, "end": _LEAN}[anchor]
    return Label(end + aside - 1j * (_BESIDE + 0.7 * LABEL_SIZE), _text(one), anchor)


def _beside(one: Share, aside: complex, way: complex, middle: complex) -> Label:
    """Beside an arrow, on its outer side; above a level one."""
    if abs(way.imag) < _STEEP:
        return Label(middle + 1j * (_BESIDE + 0.6), _text(one))
    side = -_BESIDE if aside.real < 0 else _BESIDE
    return Label(middle + side - 0.36j * LABEL_SIZE, _text(one), "start" if side > 0 else "end")
