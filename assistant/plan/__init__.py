"""A day's session in the trade's own notation ⇄ values.Plan and values.Dose; knows no rules.

`3x8-12; tempo 2-0-1-1; rest 90 s`, `3x15-40 s hold/side; rest 45 s`, `4x4-8 m`, `2x5-8 breaths`, A1/A2 for a pair.
"""

from assistant.plan.clock import Clock, apart_clock, clock, pair_clock, rep_s
from assistant.plan.effort import Effort, find_effort, left_at
from assistant.plan.measures import body_kg, shown, stature_cm
from assistant.plan.notation import dose_words, print_dose, read_dose
from assistant.plan.ready import ReadyLine, read_ready
from assistant.plan.session import plan_from_json, plan_to_json, unknown_exercises
from assistant.plan.tempo import Tempo, lowering_only, read_tempo

__all__ = [
    "Clock", "Effort", "ReadyLine", "Tempo", "apart_clock", "body_kg", "clock", "dose_words", "find_effort", "left_at",
    "lowering_only",
    "pair_clock", "plan_from_json", "plan_to_json", "print_dose", "read_dose", "read_ready", "read_tempo", "rep_s",
    "shown", "stature_cm", "unknown_exercises",
]  # fmt: skip
