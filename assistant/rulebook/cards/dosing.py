"""What doses are reckoned with beside their rules: heights of things at home, and what is not done in turn."""

from __future__ import annotations

from assistant.rulebook.cards.shape import Card, Restriction, Restrictions, Texts


class Height(Card):
    """How high a thing at home is, in cm: the plausible ends and the usual one. A number beats the card."""

    height: str
    says: str  # as it is said to the follower: "a dining chair seat"
    things: Texts = []  # equipment ids it is the height of
    low_cm: float
    high_cm: float
    usual_cm: float
    sinks_cm: float = 0  # how far a soft edge goes down under load, at most
    never: str = ""  # what it is never used for

    @property
    def ends_cm(self) -> tuple[float, float]:
        """Both ends to compute with where no number was said; a soft edge may sink."""
        return self.low_cm - self.sinks_cm, self.high_cm

    def fits(self, said_cm: float, outside_share: float) -> bool:
        """Whether a height that was said is no more than `outside_share` beyond the plausible ends.

        >>> Height(height="chair", says="a chair", low_cm=43, high_cm=48, usual_cm=45).fits(52, 0.2)
        True
        """
        return self.low_cm * (1 - outside_share) <= said_cm <= self.high_cm * (1 + outside_share)


class Apart(Card):
    """Two exercises that are not done in turn. `both` = each of them; `one` and `other` = one of each; `alone` = either."""

    apart: str
    says: str  # said to the follower after the name of the partner
    both: Restriction = {}
    one: Restriction = {}
    other: Restrictions = []
    alone: Restrictions = []
    same_pattern: bool = False  # both have the same main pattern and neither is light
