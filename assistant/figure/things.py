"""What the pose leans on: floor, box, bar, wall, straps, handles, weights; only what the numbers of the pose say."""

from __future__ import annotations

from collections.abc import Iterable

from assistant.body import Contact, Held
from assistant.figure.limbs import FOOT, TRUNK, kneels
from assistant.figure.marks import Disc, Mark, Stroke, box_around

SKIN = 1.8  # from a joint's line to the surface the limb lies on
_LINE = 1.4
_FREE = 5.0  # between the floor and feet that hang
_SAME = 3.0  # levels nearer than this are one level
_AROUND = 5.0  # floor beyond the figure on either side
_BOX_IN, _BOX_OUT = 5.0, 13.0  # of a box from where it is pressed: towards the middle of the body, and away from it
_GRIP = 2.4
_LABELLED = 30.0  # long enough that an arrow with its label does not hide it
_LOW_HANDLE = 6.0  # of handles whose height the pose leaves open
_DIP_BAR = 12.0  # a handle higher than this is a pair of bars
_POST = 13.0  # a bar stands on a frame this far behind
_PRESSED = ("palms", "fists", "handles", "forearms", "toes", "heels", "flat", "ball", "knees", "seat")


def floor_of(held: Held, drawn: Iterable[Mark], scale: float) -> float:
    """The height of the floor: under what presses on it, or under the lowest point of a body held higher up."""
    lowest = min(box_around(drawn).bottom, -SKIN)
    shape, contacts = held.pose.shape, held.contacts
    ankles = min(leg.ankle.imag for leg in held.figure.legs) * scale
    shank = held.figure.build.shank.length * scale
    if shape == "sit" and ankles < -_SAME and not kneels(held):  # feet below the seat: a chair, as high as a shank
        return min(lowest, -shank - FOOT)
    if any(c.what == "handles" for c in contacts) and not held.pose.hands_height_cm:
        lowest = min(lowest, -_LOW_HANDLE)
    hangs = shape in ("hang", "support") and lowest < -_DIP_BAR and not helped(held)
    return lowest - (_FREE if hangs else 0.0)


def helped(held: Held) -> bool:
    """Whether feet on the floor or on a chair take some of the weight."""
    return any(c.what == "help" for c in held.contacts) and not held.pose.band_kg


def things(
    held: Held, drawn: list[Mark], floor: float, scale: float, against_wall: bool
) -> tuple[list[Mark], list[Mark]]:
    """Everything around the figure: what stands behind it, and what it holds in its hands, to be drawn over it.

    Raised toes are `against_wall` where the card needs one, else on a box."""
    pose, behind, front = held.pose, [], []
    top = box_around(drawn).top
    for contact in held.contacts:
        point = contact.point * scale
        if contact.what == "rings" or (pose.hands == "rings" and contact.limb == "arms"):
            behind += _strap(held, point, top, scale)
            front.append(Disc("ring", point, _GRIP))
        elif contact.what == "bar":
            behind += _frame(held, point, floor)
            front.append(Disc("bar", point, _GRIP))
        elif contact.what == "wall" or (pose.wall and contact.limb == "arms"):
            behind.append(_wall(contact, point, floor, top))
        elif contact.what == "load" and pose.load_from in ("hands", "body"):
            (front if contact.limb == "arms" else behind).append(_weight(held, contact, point))
        elif contact.what == "load":
            behind += _band(contact, point)
        elif contact.what in _PRESSED and not kneels(held) and point.imag - _under(contact) > floor + _SAME:
            behind += _raised(held, contact, point, floor, scale, against_wall)
    if pose.heels_cm:
        behind.append(_wedge(held, floor, scale))
    if pose.band_kg:
        hand = next(c.point for c in held.contacts if c.limb == "arms")
        behind.append(Stroke("strap", (hand * scale, held.figure.legs[0].knee * scale), _LINE))
    return [*behind, _ground([*drawn, *behind], floor)], front


def _ground(drawn: list[Mark], floor: float) -> Stroke:
    box, at = box_around(drawn), 1j * (floor - _LINE / 2)
    return Stroke("ground", (box.left - _AROUND + at, box.right + _AROUND + at), _LINE)


def _strap(held: Held, point: complex, top: float, scale: float) -> list[Mark]:
    """The strap a ring hangs from, to its anchor where the pose gives one, else from above the figure."""
    anchor = held.pose.anchor_cm
    end = complex(point.real, max(top, point.imag + _LABELLED) + 6)
    if anchor is not None:
        end = complex(0.0, held.figure.build.cm(anchor) * scale)
    return [Stroke("strap", (point, end), _LINE), Stroke("thing", (end - 6, end + 6), _LINE)]


def _frame(held: Held, point: complex, floor: float) -> list[Mark]:
    """What a bar rests on: a frame behind a hanging body, a post straight below for one that leans back."""
    if held.pose.shape == "row":
        return [Stroke("thing", (point, complex(point.real, floor)), _LINE)]
    back = point - _POST
    return [Stroke("thing", (point, back, complex(back.real, floor)), _LINE)]


def _wall(contact: Contact, point: complex, floor: float, top: float) -> Stroke:
    """The wall on the far side of what is pressed against it."""
    away = TRUNK / 2 if contact.what == "wall" else SKIN
    at = point.real + (away + _LINE / 2) * (-1 if contact.force.real > 0 else 1)
    return Stroke("ground", (complex(at, floor - _LINE / 2), complex(at, top)), _LINE)


def _weight(held: Held, contact: Contact, point: complex) -> Disc:
    """A weight in the hand, or on the back of the upper body."""
    if contact.limb == "arms":
        return Disc("weight", point, 4.2)
    return Disc("weight", point + 5.5j * held.figure.trunk - 5 * held.figure.trunk, 5.0)


def _band(contact: Contact, point: complex) -> list[Mark]:
    """A band from the hand to where it is fixed."""
    way = contact.force / abs(contact.force)
    end = point + _LABELLED * way
    return [Stroke("strap", (point, end), _LINE), Stroke("thing", (end - 4j * way, end + 4j * way), _LINE)]


def _under(contact: Contact) -> float:
    return TRUNK / 2 if contact.what == "seat" else SKIN


def _raised(held: Held, contact: Contact, point: complex, floor: float, scale: float, against_wall: bool) -> list[Mark]:
    """What is under a hand, foot or body above the floor: a box, or a handle on legs."""
    if contact.what == "handles":
        return _handle(point, floor, long=point.imag - floor > _DIP_BAR)
    top = point.imag - _under(contact)
    if contact.what == "toes" and against_wall:
        return [
            Stroke(
                "ground",
                (complex(point.real - SKIN - _LINE, floor), complex(point.real - SKIN - _LINE, top + 22)),
                _LINE,
            )
        ]
    outward = point.real >= held.figure.centre()[1].real * scale
    ends = [point.real - _BOX_IN, point.real + _BOX_OUT] if outward else [point.real + _BOX_IN, point.real - _BOX_OUT]
    if contact.what == "seat":
        lying = held.figure.shoulder.real * scale if held.pose.shape != "sit" else point.real
        ends = [min(point.real, lying) - 7, max(point.real, lying) + 7]
    corners = (complex(ends[0], floor), complex(ends[0], top), complex(ends[1], top), complex(ends[1], floor))
    return [Stroke("box", corners, _LINE, closed=True)]


def _handle(point: complex, floor: float, long: bool) -> list[Mark]:
    half = 14.0 if long else 4.5
    left, right = point - half, point + half
    legs = [Stroke("thing", (end, complex(end.real, floor)), _LINE) for end in (left + half / 3, right - half / 3)]
    return [*legs, Stroke("thing", (left, right), 2.4)]


def _wedge(held: Held, floor: float, scale: float) -> Stroke:
    toe = held.contacts[0].point.real * scale
    high = held.figure.build.cm(held.pose.heels_cm) * scale
    heel = held.figure.legs[0].ankle.real * scale - 3
    corners = (complex(toe, floor), complex(heel, floor), complex(heel, floor + high))
    return Stroke("box", corners, _LINE, closed=True)
