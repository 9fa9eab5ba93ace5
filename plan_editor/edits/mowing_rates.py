"""The edit that writes mowing rates into the parish's own figures."""

from dataclasses import dataclass, field, replace
from math import isfinite
from typing import Any

from plan_editor.errors import EditRefused
from plan_editor.kinds import parish
from plan_editor.plan.change import Change
from plan_editor.plan.item import Item, ItemId, new_id
from plan_editor.plan.plan import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class TakeOverRates:
    """Write mowing rates, with where they come from, into the parish's figures.

    Args:
        source: where they come from; printed wherever they are used.
        mowing_m2_h: square metres that one person mows in an hour; None leaves it as it is.
        minutes_a_stone: for trimming round a stone; None leaves it as it is.
        id: of the parish's figures where none are on the plan.
    """

    source: str
    mowing_m2_h: float | None = None
    minutes_a_stone: float | None = None
    id: ItemId = field(default_factory=new_id)

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return "Take over the mowing rates of your own sessions"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the parish's figures before and after.

        Raises:
            EditRefused: there is no rate, or one is beyond what the figures hold.
        """
        rates = {"mowing_m2_h": self.mowing_m2_h, "minutes_a_stone": self.minutes_a_stone}
        told = {name: rate for name, rate in rates.items() if rate is not None}
        if not told or any(not _within(name, rate) for name, rate in told.items()):
            raise EditRefused(
                "The sessions give no mowing rate that can be used. Nothing was changed."
                " Record more sessions with their time."
            )
        new: dict[str, Any] = {**told, "mowing_source": self.source}
        there = next(plan.of(parish.KIND), None)
        if there is None:
            details = parish.ParishDetails(**new)
            return (Change(None, Item(id=self.id, kind=parish.KIND, details=details)),)
        return (Change(there, replace(there, details=replace(there.details, **new))),)


def _within(name: str, rate: float) -> bool:
    told = next(d.about for d in parish.KIND.entries() if d.name == name)
    low, high = told.low, told.high
    assert low is not None  # noqa: S101  # both are declared with a range
    assert high is not None  # noqa: S101
    return isfinite(rate) and low <= rate <= high
