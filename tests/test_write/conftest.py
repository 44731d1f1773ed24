"""One desk for all tests of the writer: hand-made questions, options and findings over the real book."""

from __future__ import annotations

from dataclasses import dataclass, replace

import pytest

from assistant.dose import dose
from assistant.plan import plan_from_json
from assistant.rulebook import load
from assistant.values import (
    Asked,
    Draft,
    Finding,
    Limit,
    Message,
    Profile,
    Question,
    Reason,
    Swap,
    Verdict,
)
from assistant.write import write

PLAN = plan_from_json(
    {"title": "An invented Monday", "items": [
        {"item": "W1", "exercise": "cat-cow", "sets": 1, "reps": 8},
        {"item": "A1", "exercise": "chin-up", "sets": 4, "reps": 6, "tempo": "2-0-1-1"},
        {"item": "A2", "exercise": "push-up", "sets": 4, "reps": 12},
        {"item": "B1", "exercise": "split-squat", "sets": 3, "reps": 10, "side": True},
        {"item": "C1", "exercise": "hollow-hold", "sets": 3, "seconds": 30},
    ]}
)  # fmt: skip
TABLE = "Table does not tip: test it with half your weight first, hips still on the floor; pull near a leg."


@dataclass
class Room:
    """Writes one draft from a few words about the situation."""

    book: object

    def swap(self, exercise: str, asked: str, kind: str = "swap", **fields) -> Swap:
        """An option as the search would give it, the first of its exercise recommended."""
        return Swap(exercise, kind, asked, recommended=fields.pop("recommended", True), **fields)

    def finding(self, category: str, tier: str, urgency: str = "today", part: str = "all") -> Finding:
        """A finding of the screen."""
        rule = Reason(f"{category}-sign", "signs/x.yaml:1")
        return Finding(category, f"{category}-sign", tier, urgency, "words", 0, 5, part=part, rule=rule)

    def draft(self, asked=(), swaps=(), limits=(), wants=("swap",), findings=(), plan=None, name="", can=(),
              remembered=(), ask=None, choices=(), because=(), refused=(), sorry=None, what=None,
              has=()) -> Draft:  # fmt: skip
        """The draft; `limits` are ids, `asked` exercise ids, `swaps` get their doses here."""
        kinds = {name_: card.kind for name_, card in self.book.limits.items()}
        said = tuple(Limit(limit, kinds.get(limit, "equipment"), what, "words", 0, 5) for limit in limits)
        slots = {slot.exercise: slot.item for slot in plan.items} if plan else {}
        named = tuple(Asked(id_, id_, 0, 1, "name", slots.get(id_)) for id_ in asked)
        profile = Profile(name=name, limits=tuple(remembered), can=tuple(can))
        message = Message("words of the follower", plan, profile=profile)
        question = Question(tuple(wants), named, said, tuple(has), ask_back=ask, choices=tuple(choices),
                            because=tuple(because))  # fmt: skip
        dosed = tuple(replace(s, dose=s.dose or dose(s, question, message, self.book)) for s in swaps)
        tiers = ("clear", "coach", "clinician", "emergency")
        tier = max((f.tier for f in findings), key=tiers.index, default="clear")
        urgencies = ("now", "today", "before-training", "routine")
        urgency = min((f.urgency for f in findings), key=urgencies.index, default="routine")
        verdict = Verdict(tier, urgency, tuple(findings))
        return write(question, verdict, dosed, tuple(refused), message, self.book, sorry)

    def table_row(self, asked: str = "chin-up", **fields) -> Swap:
        """The household pull with its condition."""
        costs = ("same muscles", "less for the grip")
        return self.swap("table-row", asked, aid="table", condition=TABLE, costs=costs, **fields)


def situations(room: Room) -> dict[str, Draft]:
    """Drafts for many situations, each with a name: what a coach meets in a week."""
    s, d, f = room.swap, room.draft, room.finding
    hard = s("decline-push-up", "push-up", "harder")
    rings = s("chin-up", "chin-up", recommended=False, if_you_have="rings-high")
    back = s("band-pull-apart", "chin-up", recommended=False, if_you_have="band-long")
    ask_book = replace(room.book, cards={**room.book.cards, "reply": {**room.book.replies, **_ask_card(room.book)}})
    asking = Room(ask_book)
    return {
        "no bar": d(["chin-up"], [room.table_row()], ["no-overhead-bar"], name="Lou Example"),
        "no bar, others": d(["chin-up"], [room.table_row(), s("floor-slide-pull", "chin-up", recommended=False), back],
                            ["no-overhead-bar"]),
        "missing thing without a card": d(["band-pull-apart"], [s("rear-raise", "band-pull-apart")], ["no-slider"],
                                          what="slider"),
        "sore wrist": d(["push-up"], [s("forearm-plank", "push-up")], ["wrist-sore"], plan=PLAN),
        "zero reps": d(["pull-up"],
                       [s("foot-assisted-pull-up", "pull-up", "easier", aid="chair", condition="No wheels")],
                       ["zero-reps"], can=[("pull-up", 0)]),
        "few reps": d(["chin-up"], [s("chin-up", "chin-up", "same")], ["few-reps"], plan=PLAN, can=[("chin-up", 3)]),
        "fallback stays": d(["push-up"], [hard, s("push-up", "push-up", "same", recommended=False)], ["too-easy"],
                            ["harder"]),
        "hips sag": d(["push-up"], [s("knee-push-up", "push-up", "easier")], ["hips-sag"]),
        "stiff": d(["squat"], [s("heel-raised-squat", "squat")], ["ankle-stiff"]),
        "space": d(["bear-crawl"], [s("march-in-place", "bear-crawl")], ["small-space"]),
        "noise": d(["squat-jump"], [s("squat-to-heel-raise", "squat-jump")], ["must-be-quiet"]),
        "fear": d(["back-to-wall-handstand"], [s("pike-hold", "back-to-wall-handstand", "easier")],
                  ["fear-upside-down"]),
        "balance": d(["split-squat"], [s("partial-squat", "split-squat")], ["poor-balance"]),
        "hands": d(["chin-up"], [s("prone-lat-sweep", "chin-up")], ["torn-hands"]),
        "mat": d(["knee-push-up"], [s("knee-push-up", "knee-push-up", "same", aid="a folded blanket under the knees")],
                 ["knee-kneel-sore"]),
        "bag and chair": d(["inverted-row"], [s("dumbbell-row", "inverted-row", aid="backpack + chair")], ["no-rings"]),
        "bag": d(["goblet-squat"],
                 [s("goblet-squat", "goblet-squat", "same", aid="backpack", condition="Packed tight")], ["no-weights"]),
        "remembered": d(["bear-crawl"], [s("forearm-plank", "bear-crawl", because=(Reason("wrist-sore", "x"),))],
                        ["small-space"], remembered=["wrist-sore"]),
        "wish easier": d(["push-up"], [s("knee-push-up", "push-up", "easier")], wants=["easier"]),
        "nothing fits": d(["dip"], [], ["no-dip-bars"]),
        "nothing honest": d(["tuck-front-lever"], [], ["no-overhead-bar"]),
        "only a part": d(["dead-hang"], [s("towel-squeeze", "dead-hang")], ["no-overhead-bar"]),
        "kit nobody named": d(["chin-up"], [room.table_row(), rings], ["no-overhead-bar"]),
        "several": d(["chin-up", "push-up", "hollow-hold"], [room.table_row(), s("knee-push-up", "push-up", "easier")],
                     ["no-overhead-bar"], plan=PLAN),
        "never": d(["dead-hang"], [s("towel-squeeze", "dead-hang")], ["no-overhead-bar"],
                   because=[Reason("N5", "x", "rail")]),
        "form": d(["glute-bridge"], [], wants=["form"]),
        "form and swap": d(["hollow-hold"], [s("dead-bug", "hollow-hold", "easier")], ["neck-sore"], ["form"]),
        "why two": d(["lean-push-up", "push-up"], [], wants=["why"]),
        "why one": d(["lean-push-up"], [], wants=["why"]),
        "why alike": d(_alike(room.book), [], wants=["why"]),
        "why, with a note on the step": d(["pull-up", "chin-up"], [], wants=["why"]),
        "why this swap": d(["pull-up"], [room.table_row("pull-up")], ["no-overhead-bar"], ["swap", "why"]),
        "why with an angle": d(["squat", "partial-squat"], [], wants=["why"]),
        "dose": d(["chin-up"], [], wants=["dose"], plan=PLAN),
        "dose of a hold": d(["hollow-hold"], [], wants=["dose"]),
        "ready yes": d(["push-up"], [hard], wants=["ready"], can=[("push-up", 16)]),
        "ready no": d(["push-up"], [hard], wants=["ready"], can=[("push-up", 9)]),
        "ready, nothing said": d(["push-up"], [hard], wants=["ready"]),
        "ready, no next": d(["child-pose"], [], wants=["ready"]),
        "kit": d(["sheet-door-row", "inverted-row", "push-up"], [], wants=["kit"]),
        "kit at home": d(["push-up"], [], wants=["kit"]),
        "kit of the plan": d([], [], wants=["kit"], plan=PLAN),
        "feedback": d(["chin-up"], [], wants=["feedback"]),
        "other": d([], [], wants=["other"]),
        "whole session": d(["chin-up"], [room.table_row()], ["no-equipment-at-all"], ["whole-session"], plan=PLAN),
        "whole session, one without answer": d(["chin-up", "hollow-hold"], [room.table_row()], ["no-overhead-bar"],
                                               ["whole-session"], plan=PLAN,
                                               sorry={"hollow-hold": Reason("r", "x", says="Rest.")}),
        "short of time": d([], [s("chin-up", "chin-up", "same"), s("push-up", "push-up", "same")], ["short-time"],
                           plan=PLAN),
        "gentle": d(["chin-up"], [room.table_row()], ["elbow-sore"], findings=[f("pain_duration", "coach", "routine")]),
        "gentle, nothing to offer": d(["chin-up"], [], wants=["other"], findings=[f("minor", "coach", "routine")]),
        "asked back": asking.draft(["chin-up"], [], ["wrist-sore"], ask="which-one", choices=["dead-bug", "bird-dog"]),
        "emergency": d(["burpee"], [], ["wrist-sore"], findings=[f("cardiac", "emergency", "now")], name="Lou"),
        "self-harm": d(["chin-up"], [], wants=["dose"], findings=[f("self_harm", "emergency", "now")]),
        "clinician, a part": d(["handle-push-up"], [], findings=[f("nerve", "clinician", part="wrist")]),
        "clinician, in the plan": d(["chin-up"], [], findings=[f("nerve", "clinician", part="wrist")], plan=PLAN),
        "clinician, whole": d(["calf-raise"], [], findings=[f("dvt_pe", "clinician")]),
    }  # fmt: skip


def _alike(book) -> list[str]:
    """The first two exercises of the book whose demands are the same."""
    first: dict[str, str] = {}
    for card in book.exercises.values():
        twin = first.setdefault(str(sorted(card.asks.items())), card.id)
        if twin != card.id:
            return [twin, card.id]
    raise AssertionError("no two exercises have the same demands")


def _ask_card(book) -> dict[str, object]:
    text = "Which one do you mean: the {{ choice_list }}?"
    changed = {"reply": "which-one", "fields": ["choice_list"], "text": text}
    return {"which-one": book.replies["asked-back"].model_copy(update=changed)}


@pytest.fixture(scope="session")
def room() -> Room:
    return Room(load())


@pytest.fixture(scope="session")
def drafts(room) -> dict[str, Draft]:
    return situations(room)
