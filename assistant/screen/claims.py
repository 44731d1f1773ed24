"""What is claimed about a sign: about whom, asserted or not, since when, and how it went on.

The scopes of the words come from the cue cards. Three things are stricter here than in ordinary reading, because a
missed sign is the costly error: "fine" after a sign means it has gone, not that it was never there; what is feared or
supposed must stand close behind its cue; and another person's emergency now is an emergency.
"""

from __future__ import annotations

from dataclasses import dataclass

from assistant.rulebook import Rulebook
from assistant.screen.general import general_clauses
from assistant.screen.numbers import Time, times_in
from assistant.screen.subjects import Subjects
from assistant.words import Hit, Match, Text

_PASSING = {"aware", "beat", "breath", "ill"}  # "wheelchair user, passed out": how he has long been does not explain it
_FAR = ("course/cleared", "course/lasting")
_SYMPTOMS = ("hurt", "feel", "swell", "aware", "breath", "vision", "blood", "shape", "tint", "ill", "beat", "speech")


@dataclass(frozen=True)
class Claim:
    """The properties of one finding besides its sign."""

    assertion: str  # present, doubt, denied, what-if, figure
    who: str  # follower, other
    days: float | None  # how long ago, where the text says so
    lasting_days: float | None
    course: str  # "", gone, cleared


class Claims:
    """The claims of one text: its times and cues looked up once, then asked match by match."""

    def __init__(self, text: Text, book: Rulebook):
        self.text, self.book = text, book
        self.times = times_in(text, book)
        self.reach = book.cards["scale"]["reach"].numbers
        self.general = general_clauses(text)
        self.subjects = Subjects(text)

    def of(self, match: Match) -> Claim:
        """The claim that the text makes with the words of `match`."""
        return Claim(
            self._assertion(match),
            "other" if self._other(match) else "follower",
            self._days(match),
            self._lasting(match),
            self._course(match),
        )

    # -- asserted or not -------------------------------------------------------------------------------------------
    def _assertion(self, match: Match) -> str:
        if "figure" in match.scopes or self.subjects.unreal(match):
            return "figure"
        if self._denied(match) or self.subjects.answered_no(match):
            return "denied"
        if self._supposed(match):
            return "what-if"
        return "doubt" if "doubt" in match.scopes else "present"

    def _denied(self, match: Match) -> bool:
        """Denied by a cue before it ("no", "never had"); a "fine" behind it is a course, not a denial, and a cue that
        is part of the sign ("is not answering") does not deny it."""
        own = {n for hit in match.hits for n in range(hit.first, hit.last + 1)}
        for hit in match.hits:
            cues = [cue for cue in self._cues_near(hit) if cue.card.means == "denied" and cue.last < hit.first]
            cues = [cue for cue in cues if cue.first not in own and not cue.card.reaches.startswith("backward")]
            denied = ("denied" in hit.scopes and cues) or self._no_before(hit, own) or self._never_had(hit)
            if denied and not self._like_never_before(hit):
                return True
        return self._found_absent(match)

    def _like_never_before(self, hit: Hit) -> bool:
        """ "never had pressure like this": it is there, and new."""
        return any(mark.clause == hit.clause and mark.first > hit.last for mark in self.text.find("never-had"))

    def _never_had(self, hit: Hit) -> bool:
        """ "never had a fit": the cue "never had" and the sign "had a fit" share a word."""
        shared = [cue for cue in self._cues_near(hit) if cue.first < hit.first <= cue.last < hit.last]
        return any(cue.card.means == "denied" and self.text.words[cue.first].norm == "never" for cue in shared)

    def _no_before(self, hit: Hit, own: set[int]) -> bool:
        """A plain "no" right before the hit, also where a longer phrase of another class has swallowed the cue."""
        n = hit.first - 1
        return n >= 0 and n not in own and self.text.words[n].norm in self.book.cues["no"].words

    def _found_absent(self, match: Match) -> bool:
        """ "checked for a hernia, there isnt one": a thing looked for and not found."""
        if not {hit.family for hit in match.hits} & {"condition", "shape", "event", "baby", "ill"}:
            return False
        last = max(hit.first for hit in match.hits)
        sentence = self.text.words[last].sentence
        absent = self.text.find("course/absent")
        return any(hit.first > last and self.text.words[hit.first].sentence == sentence for hit in absent)

    def _cues_near(self, hit: Hit):
        sentence = self.text.words[hit.first].sentence
        return [cue for cue in self.text.cues if self.text.words[cue.first].sentence == sentence]

    def _supposed(self, match: Match) -> bool:
        if {hit.clause for hit in match.hits} & self.general or self.subjects.imagined(match):
            return True
        if self._of_anyone(match):
            return True
        if self._present_word(match):
            return False
        limit = self.reach["what_if_words"]
        effects = {hit.first for hit in self.text.find("asks/effect")}
        for hit in match.hits:
            for cue in self._cues_near(hit) if "what-if" in hit.scopes else ():
                near = 0 < hit.first - cue.last <= limit
                if cue.card.means == "what-if" and near and cue.first not in effects:
                    return True
        events = [hit for hit in match.hits if hit.family == "event"]
        fears = [fear for fear in self.text.find("asks/fear") for hit in events if fear.clause == hit.clause]
        return any(0 < hit.first - fear.last <= limit for fear in fears for hit in events)

    def _of_anyone(self, match: Match) -> bool:
        """ "what should one do if somebody faints": no one in particular, and not that it is happening."""
        first = min(hit.first for hit in match.hits)
        clause = self.text.words[first].clause
        for one in self.text.find("asks/anyone"):
            if one.clause != clause or one.first > first:
                continue
            before = {word.norm for word in self.text.words[: one.first] if word.clause == clause}
            between = [*self.text.find("when/is"), *self.text.find("asks/me")]
            told = any(one.last < mark.first <= max(hit.last for hit in match.hits) for mark in between)
            if before & {"if", "when"} and not told:
                return True
        return False

    def _present_word(self, match: Match) -> bool:
        """Whether the sentence says that it is there: still, since, again, yesterday."""
        sentences = {self.text.words[hit.first].sentence for hit in match.hits}
        marks = [*self.text.find("when/now"), *self.text.find("point")]
        return any(self.text.words[mark.first].sentence in sentences for mark in marks)

    # -- whose -----------------------------------------------------------------------------------------------------
    def _other(self, match: Match) -> bool:
        return "other-person" in match.scopes and not self.text.find("joins") and not self._mine(match)

    def _mine(self, match: Match) -> bool:
        """Whether a body part of the sign is called "my": "with the kids, landed on my neck"."""
        before = [hit.first - 1 for hit in match.hits if hit.family == "part" and hit.first]
        return any(self.text.words[n].norm in ("my", "me", "mi") for n in before)

    def past_tense(self, match: Match) -> bool:
        """Whether the sentence tells of the past: had, was, years ago."""
        sentences = {self.text.words[hit.first].sentence for hit in match.hits}
        own = {n for hit in match.hits for n in range(hit.first, hit.last + 1)}
        marks = [*self.text.find("when/had"), *self.text.find("when/old")]
        told = [m for m in marks if self.text.words[m.first].sentence in sentences and m.first not in own]
        clauses = {hit.clause for hit in match.hits}
        if any(m.clause in clauses for m in self.text.find("when/is")):
            told = [m for m in told if m.clause in clauses or m.cls == "when/old"]  # "he did the sits and has slumped"
        return bool(told)

    def told_as_now(self, match: Match) -> bool:
        """Whether the sign's own clause says that it is so at this moment: "hes peeing brown"."""
        clauses, own = {hit.clause for hit in match.hits}, {hit.first for hit in match.hits}
        marks = self.text.find("when/at-once")
        return any(mark.clause in clauses and mark.first not in own for mark in marks)

    def told_as_past(self, match: Match) -> bool:
        """Whether the sentence tells of long ago without a number: "once", "when he was two", "a history of"."""
        sentences = {self.text.words[hit.first].sentence for hit in match.hits}
        own = {n for hit in match.hits for n in range(hit.first, hit.last + 1)}
        marks = [*self.text.find("when/past-other"), *self.text.find("when/old")]
        return any(self.text.words[m.first].sentence in sentences and m.first not in own for m in marks)

    # -- when ------------------------------------------------------------------------------------------------------
    def _days(self, match: Match) -> float | None:
        """Days ago, from the sign's own clauses, else from a neighbouring clause that has nothing else to date."""
        since = self._gone_for(match)
        days = self._days_ago(match)
        if since is None:
            return days
        numbers = self.book.cards["scale"]["times"].numbers
        return numbers["year_days"] + 1 if since >= numbers["gone_days"] else days

    def _gone_for(self, match: Match) -> float | None:
        """Days that it has been gone: "all good now for months"."""
        gone = {hit.clause for hit in self.text.find("course/gone")}
        if not self._said(match, "course/gone"):
            return None
        return max((t.days for t in self.times if t.kind == "lasting" and self._clause(t) in gone), default=None)

    def _days_ago(self, match: Match) -> float | None:
        times = [time for time in self.times if time.kind == "ago"]
        found = self._nearest(match, times)
        if found is not None:
            return found.days
        if self._old_word(match):
            return self.book.cards["scale"]["times"].numbers["year_days"] + 1
        return None

    def _old_word(self, match: Match) -> bool:
        clauses = {hit.clause for hit in match.hits}
        near = clauses | {clause + 1 for clause in clauses} | {clause - 1 for clause in clauses}
        own = {n for hit in match.hits for n in range(hit.first, hit.last + 1)}
        for old in self.text.find("when/old"):
            beside = old.clause in near and not self._busy(old.clause, match) and not self._present_here(clauses)
            if old.first not in own and (old.clause in clauses or beside):
                return True
        return False

    def _nearest(self, match: Match, times: list[Time]) -> Time | None:
        clauses = {hit.clause for hit in match.hits}
        here = [time for time in times if self._clause(time) in clauses]
        if not here and not self._present_here(clauses):
            near = [time for time in times if min(abs(self._clause(time) - clause) for clause in clauses) == 1]
            here = [time for time in near if not self._busy(self._clause(time), match) or self._leads(time, clauses)]
        if not here:
            return None
        return min(here, key=lambda time: min(abs(time.first - hit.first) for hit in match.hits))

    def _present_here(self, clauses: set[int]) -> bool:
        return any(mark.clause in clauses for mark in self.text.find("when/now"))

    def _leads(self, time: Time, clauses: set[int]) -> bool:
        """Whether a time opens the sentence and what follows tells on in the past: "a month ago x, and y"."""
        opening = self.text.words[: time.first]
        opens = all(word.sentence != self.text.words[time.first].sentence for word in opening[:-1])
        same = {word.sentence for word in self.text.words if word.clause in clauses}
        told_now = any(mark.clause in clauses for mark in self.text.find("when/present"))
        return opens and self.text.words[time.first].sentence in same and not told_now

    def _clause(self, time: Time) -> int:
        return self.text.words[time.first].clause

    def _busy(self, clause: int, match: Match, alike: bool = False) -> bool:
        """Whether a clause tells of another sign, which its time then belongs to; `alike` = one of the same family too."""
        own = {hit.first for hit in match.hits}
        families = {*_SYMPTOMS, "care", "condition", "event", "baby", "loss"}
        families -= set() if alike else {hit.family for hit in match.hits}
        here = [hit for family in families for hit in self.text.find(family) if hit.clause == clause]
        return any(hit.first not in own for hit in here)

    def _lasting(self, match: Match) -> float | None:
        """Days that it has lasted; a length that belongs to training, a plan or a holiday does not count."""
        clauses = {hit.clause for hit in match.hits}
        near = [time for time in self.times if time.kind == "lasting" and self._close(time, clauses)]
        near = [time for time in near if not self._of_training(time, match)]
        return max((time.days for time in near), default=None)

    def _close(self, time: Time, clauses: set[int]) -> bool:
        return min(abs(self._clause(time) - clause) for clause in clauses) <= 1

    def _of_training(self, time: Time, match: Match) -> bool:
        clause = self._clause(time)
        training = [hit for hit in self.text.find("number/training-time") if hit.clause == clause]
        if training and clause not in {hit.clause for hit in match.hits}:
            return True
        before = [hit.last for hit in training if hit.last < time.first]
        between = any(max(before, default=0) < hit.first < time.first for hit in match.hits)
        return bool(before) and not between or any(0 < hit.first - time.last <= 2 for hit in training)

    # -- how it went on --------------------------------------------------------------------------------------------
    def _course(self, match: Match) -> str:
        lasting = not {hit.family for hit in match.hits} & _PASSING and self._said(match, "course/lasting")
        if lasting or self._said(match, "course/cleared") or self._said(match, "course/absent"):
            return "cleared"
        return "gone" if self._said(match, "course/gone") else ""

    def _said(self, match: Match, name: str) -> bool:
        """Whether the course is said in the sign's clauses or right after, before anything new is told."""
        clauses = {hit.clause for hit in match.hits}
        last = max(clauses)
        for hit in self.text.find(name):
            if ("denied" in hit.scopes and name == "course/cleared") or self._turned(hit):
                continue
            if hit.clause in clauses or (name in _FAR and self._close_clause(hit, clauses)):
                return True
            if last < hit.clause <= last + 2 and not any(
                self._busy(n, match, alike=True) for n in range(last + 1, hit.clause + 1)
            ):
                return True
        return False

    def _turned(self, hit: Hit) -> bool:
        """ "has gone rather grey" is a change and no end: after "gone" must come a stop or a word of time or place."""
        n = hit.last + 1
        alone = hit.first == hit.last and hit.words.lower() == "gone"
        if not alone or n >= len(self.text.words) or self.text.words[n].gap:
            return False
        ends = [*self.text.find("course/tail"), *self.text.find("count")]
        return not self.text.words[n].norm.isdigit() and not any(tail.first == n for tail in ends)

    def _close_clause(self, hit: Hit, clauses: set[int]) -> bool:
        return min(abs(hit.clause - clause) for clause in clauses) <= 2
