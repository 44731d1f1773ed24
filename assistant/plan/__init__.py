"""A day's session in the trade's own notation ⇄ values.Plan and values.Dose; knows no rules.

`3x8-12; tempo 2-0-1-1; rest 90 s`, `3x15-40 s hold/side; rest 45 s`, `4x4-8 m`, `2x5-8 breaths`, A1/A2 for a pair.
"""

from assistant.plan.clock import Clock, clock, rep_s
from assistant.plan.notation import dose_words, print_dose, read_dose
from assistant.plan.session import plan_from_json, plan_to_json, unknown_exercises
from assistant.plan.tempo import Tempo, read_tempo

__all__ = [
    "Clock", "Tempo", "clock", "dose_words", "plan_from_json", "plan_to_json", "print_dose", "read_dose", "read_tempo",
    "rep_s", "unknown_exercises",
]  # fmt: skip
