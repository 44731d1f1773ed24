"""Sign cards against a text: which are met, and at which tier by time, course, person and company."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Sign
from assistant.screen.claims import Claim, Claims
from assistant.screen.readings import Measured, readings_in
from assistant.values import TIERS, Finding, Tier, Urgency
from assistant.words import Hit, Match, Text
from assistant.words.lexicon import lexicon

_QUIET = ("denied", "what-if", "figure")
_UNSAID = frozenset(_QUIET)
_STORY = 2  # sentences between the first and the last word of a sign
_FELT = 2  # clauses between a part of the body and what is felt there
_ARTICLES, _OBJECT = ("the", "a", "an", "our", "your", "his", "her", "their"), 3  # words to what was broken
_DAYS = ("lasting_days", "ago_days")


def findings(text: Text, book: Rulebook) -> list[Finding]:
    """Every sign met in `text`, one finding a sign and body part; those not asserted stand at tier clear."""
    claims = Claims(text, book)
    measured = readings_in(text, book)
    reach = book.cards["scale"]["reach"].numbers["negation_words"]
    best: dict[tuple[str, str], tuple[Finding, Match, bool]] = {}
    for card, matches in _met(text, measured, reach, book):
        for met in matches:
            claim = claims.of(met)
            if claim.assertion == "figure" or not _reads(card, measured, claim):
                continue
            finding = _finding(card, met, claim, claims)
            key = (card.id, finding.part)
            if key not in best or TIERS.index(finding.tier) > TIERS.index(best[key][0].tier):
                best[key] = finding, met, _other_now(claim, claims, met)
    return _raised(list(best.values()), text, book)


def _met(text: Text, measured: list[Measured], reach: float, book: Rulebook) -> Iterator[tuple[Sign, Iterable[Match]]]:
    """Signs whose words are met, then, where something was measured, those that only read a number."""
    for card, found in lexicon(book).signs.met(text):
        yield card, [one for one in found if _negation_leads(one, reach) and _one_story(one, text)]
    if measured:
        for card in book.signs.values():
            if not card.when:
                names = {name for bounds in card.reads for name in bounds}
                yield card, [_as_match(one, text) for one in measured if one.quantity in names]


def _negation_leads(one: Match, reach: float) -> bool:
    """A negation that is part of the sign stands close before what it negates: "is not answering"."""
    negation, able = one.hit("neg"), one.hit("able")
    return negation is None or able is None or 0 < able.first - negation.last <= reach


def _one_story(one: Match, text: Text) -> bool:
    """Whether the words can belong together: within three sentences, and what is felt near the part that feels it."""
    sentences = {text.words[hit.first].sentence for hit in one.hits}
    if max(sentences) - min(sentences) > _STORY:
        return False
    part, event = one.hit("part"), one.hit("event")
    if event is not None and part is not None and event.name == "broke" and _breaks_a_thing(event, text):
        return False
    if event is not None and part is not None and one.hit("feel") is not None and max(sentences) - min(sentences) > 1:
        return False
    felt = [hit for hit in one.hits if hit.family in ("feel", "hurt") and part is not None]
    return all(abs(hit.clause - part.clause) <= _FELT for hit in felt)


def _breaks_a_thing(event: Hit, text: Text) -> bool:
    """ "my pupil broke the bench": the next word is an article, and no part of the body follows."""
    after = event.last + 1
    if after >= len(text.words) or text.words[after].norm not in _ARTICLES or text.words[after].gap:
        return False
    return not any(after <= hit.first <= after + _OBJECT for hit in text.find("part"))


def _as_match(one: Measured, text: Text) -> Match:
    """A reading on its own, as if a frame had been met on its words; it comes with the body part named nearest."""
    first, last = text.words[one.first], text.words[one.last]
    words, scopes = text.raw[first.start : last.end], text.word_scopes[one.first]
    hits = [Hit(f"reading/{one.quantity}", one.first, one.last, first.start, last.end, first.clause, words, scopes)]
    parts = [hit for hit in text.find("part") if text.words[hit.first].sentence == first.sentence]
    hits += sorted(parts, key=lambda hit: abs(hit.first - one.first))[:1]
    return Match(0, tuple(hits), first.start, last.end, words, scopes, first.clause)


def _reads(card: Sign, measured: list[Measured], claim: Claim) -> bool:
    """Whether one of the card's `reads` holds: each quantity by its highest or lowest number in the text."""
    if not card.reads:
        return True
    own = {"lasting_days": claim.lasting_days, "ago_days": claim.days}
    return any(all(_holds(name, bound, measured, own) for name, bound in bounds.items()) for bounds in card.reads)


def _holds(name: str, bound, measured: list[Measured], own: dict[str, float | None]) -> bool:
    if name in _DAYS:
        return own[name] is not None and bound.holds(own[name])
    values = [one.value for one in measured if one.quantity == name]
    if name == "pain_of_10" and values:
        values = [max(values)]  # the highest number tied to pain counts
    return any(bound.holds(value) for value in values)


def _finding(card: Sign, met: Match, claim: Claim, claims: Claims) -> Finding:
    tier = _tier(card, claim, claims, met)
    assertion = claim.assertion
    part = card.part
    if part == "said":
        hit = met.hit("part")
        part = hit.name if hit else "all"
    return Finding(
        card.category, card.id, tier, _urgency(card, tier), met.words, met.start, met.end, claim.who, assertion,
        _time(claim, claims), claim.course, part, card.reason(met.words),
    )  # fmt: skip


def _time(claim: Claim, claims: Claims) -> str:
    numbers = claims.book.cards["scale"]["times"].numbers
    if claim.days is None or claim.days <= numbers["now_days"]:
        return "now"
    return "old" if claim.days > numbers["year_days"] else "recent"


def _tier(card: Sign, claim: Claim, claims: Claims, met: Match) -> Tier:
    now = card.tier["now"]
    if claim.assertion in _QUIET:
        return "clear"
    if claim.who == "other":
        if "other" in card.tier:
            return "clear" if _long_ago(claim, claims, met) else card.tier["other"]
        return now if now == "emergency" and _other_now(claim, claims, met) else "clear"
    numbers = claims.book.cards["scale"]["times"].numbers
    days = claim.days or 0
    recent = card.tier.get("recent", "clinician" if now == "emergency" else now)
    if claim.course == "cleared" and "cleared" in card.tier:
        return min(card.tier["cleared"], _by_time(card, days, numbers, now, recent), key=TIERS.index)
    if days > numbers["year_days"]:
        return card.tier.get("old", "clear")
    if claim.course == "gone" and days <= numbers["recent_days"]:
        return card.tier.get("gone", recent)
    return _by_time(card, days, numbers, now, recent)


def _other_now(claim: Claim, claims: Claims, met: Match) -> bool:
    """Whether it is told of another person, and of this hour: his emergency is an emergency all the same."""
    if claim.who != "other" or claim.assertion in _QUIET:
        return False
    today = claim.days is not None and claim.days <= claims.book.cards["scale"]["times"].numbers["now_days"]
    return today or claims.told_as_now(met) or (claim.days is None and not claims.past_tense(met))


def _long_ago(claim: Claim, claims: Claims, met: Match) -> bool:
    """Whether it is another person's past: days ago, or "once", "when he was two", "history of"."""
    if claim.days is not None:
        return claim.days > claims.book.cards["scale"]["times"].numbers["now_days"]
    return claims.told_as_past(met)


def _by_time(card: Sign, days: float, numbers: dict[str, float], now: Tier, recent: Tier) -> Tier:
    if days <= card.fresh_days:
        return now
    if days <= numbers["recent_days"]:
        return recent
    if days <= numbers["year_days"]:
        return card.tier.get("year", recent)
    return card.tier.get("old", "clear")


def _urgency(card: Sign, tier: Tier) -> Urgency:
    """Emergencies are for now; a card's own urgency holds for the tier it has now, lower tiers are routine."""
    if tier == "emergency":
        return "now"
    if tier == "clinician":
        return card.urgency
    set_for_this = "urgency" in card.model_fields_set and card.tier["now"] == tier
    return card.urgency if set_for_this else "routine"


def _raised(found: list[tuple[Finding, Match, bool]], text: Text, book: Rulebook) -> list[Finding]:
    """Findings raised by their company: another sign or a class of words anywhere in the message.

    What is told of another person now is raised only to an emergency, and by signs of that person too."""
    own = {finding.sign for finding, _, _ in found if finding.tier != "clear"}
    others = own | {finding.sign for finding, _, now in found if now}
    result = []
    for finding, met, other_now in found:
        card = book.signs[finding.sign]
        if finding.tier != "clear" or other_now:
            signs = others if other_now else own
            for name, tier in card.together.items():
                beside = name in signs and name != card.id if "/" not in name else _stands(name, met, text, other_now)
                higher = TIERS.index(tier) > TIERS.index(finding.tier)
                if beside and higher and (tier == "emergency" or not other_now):
                    finding = replace(finding, tier=tier, urgency=_urgency(card, tier))
        result.append(finding)
    return result


def _stands(name: str, met: Match, text: Text, of_other: bool) -> bool:
    """Whether a class of words stands asserted in the message, outside the sign's own words, and of the same person.

    Within a sentence the person is not told apart: "he cant bend his knees and the toilet is like cola"."""
    own = {n for hit in met.hits for n in range(hit.first, hit.last + 1)}
    here = {text.words[n].sentence for n in own}
    for hit in text.find(name):
        same = of_other or "other-person" not in hit.scopes or text.words[hit.first].sentence in here
        if same and not hit.scopes & _UNSAID and not set(range(hit.first, hit.last + 1)) <= own:
            return True
    return False
