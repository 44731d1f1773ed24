"""The coach's days: plans as values in and out."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from sqlalchemy import bindparam, func, select
from sqlalchemy.orm import Session

from assistant.store.tables import DayPlan, Message
from assistant.values import Dose, Plan, PlanItem, Reason

_RANGES = ("reps", "seconds", "metres")
_ID_OF_DAY = (  # built once: every message that comes in asks for it
    select(DayPlan.id)
    .where(DayPlan.coach == bindparam("coach"), DayPlan.day <= bindparam("day"))
    .order_by(DayPlan.day.desc(), DayPlan.since.desc(), DayPlan.id)
    .limit(1)
)


class Plans:
    """The plans of every coach, within one transaction."""

    def __init__(self, session: Session):
        self._session = session

    def put(self, coach: str, plan: Plan, since: str) -> None:
        """A new plan, or the new form of a known one."""
        items = [asdict(item) for item in plan.items]
        known = self._session.get(DayPlan, (coach, plan.id))
        if known:
            known.title, known.day, known.items = plan.title, plan.day, items
        else:
            row = DayPlan(coach=coach, id=plan.id, title=plan.title, day=plan.day, items=items, since=since)
            self._session.add(row)
        self._session.flush()

    def one(self, coach: str, plan: str) -> Plan | None:
        """The plan called `plan`, or None."""
        found = self._session.get(DayPlan, (coach, plan))
        return _plan(found) if found else None

    def ids(self, coach: str) -> list[str]:
        """The ids of all plans of the coach, in order of day."""
        return list(self._session.scalars(_in_order(select(DayPlan.id), coach)))

    def of_day(self, coach: str, day: str) -> Plan | None:
        """The plan of the ISO date `day`, else the last one before it, else the newest without a day."""
        found = self.id_of_day(coach, day)
        return self.one(coach, found) if found else None

    def id_of_day(self, coach: str, day: str) -> str | None:
        """The id of the plan `of_day`."""
        return self._session.scalar(_ID_OF_DAY, {"coach": coach, "day": day})

    def waiting(self, coach: str) -> list[tuple[str, str, int]]:
        """(plan id, title, messages waiting) of every plan of the coach, in order of day."""
        count = (
            select(func.count())
            .select_from(Message)
            .where(Message.coach == coach, Message.plan == DayPlan.id, Message.status == "waiting")
            .correlate(DayPlan)
            .scalar_subquery()
        )
        return [tuple(row) for row in self._session.execute(_in_order(select(DayPlan.id, DayPlan.title, count), coach))]


def _in_order(query: Any, coach: str) -> Any:
    return query.where(DayPlan.coach == coach).order_by(DayPlan.day, DayPlan.since, DayPlan.id)


def _plan(row: DayPlan) -> Plan:
    return Plan(row.id, row.title, tuple(_item(item) for item in row.items), row.day)


def _item(kept: dict[str, Any]) -> PlanItem:
    dose = kept["dose"]
    if dose is not None:
        ranges = {name: tuple(dose[name]) for name in _RANGES if dose[name] is not None}
        dose = Dose(**{**dose, **ranges, "because": tuple(Reason(**reason) for reason in dose["because"])})
    return PlanItem(**{**kept, "dose": dose})
