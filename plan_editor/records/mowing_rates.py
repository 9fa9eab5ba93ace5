"""The parish's own mowing rates, fitted from its sessions."""

from dataclasses import dataclass

from plan_editor.declared import late
from plan_editor.records.visit_equations import STONES, Equation

LEAST = 3
"""So many sessions must tell of a rate. Our own figure: two are met exactly by two unknowns."""

SPARE = 2
"""So many more sessions than rates there must be, or the interval says nothing. Our own."""

CONFIDENCE = 0.9
"""Of the intervals: in nine of ten seasons like this the true rate lies within."""

FOR_A_RATE = (
    f"A rate wants {LEAST} sessions with their time that tell of it, and {SPARE} sessions more"
    " than there are rates to find; sessions of other pieces, or with mowing and trimming told"
    " apart, say more than the same one again."
)

__all__ = ["CONFIDENCE", "FOR_A_RATE", "LEAST", "SPARE", "STONES", "Fitted", "fitted"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitted:
    """One rate as the sessions say it, in minutes of one person.

    Args:
        of: the name of a regime, or ``STONES``.
        minutes: for a square metre, or for a stone.
        low, high: the interval of ``CONFIDENCE`` in which they lie; low is 0 at least.
        visits: how many sessions tell of it.
    """

    of: str
    minutes: float
    low: float
    high: float
    visits: int

    @property
    def m2_h(self) -> float:
        """Square metres that one person mows in an hour."""
        return 60.0 / self.minutes

    @property
    def m2_h_between(self) -> tuple[float, float]:
        """The interval of these; its end is infinite where the sessions do not bound it."""
        return 60.0 / self.high, 60.0 / self.low if self.low > 0.0 else float("inf")


def _like(told: tuple[Equation, ...]) -> tuple[Fitted, ...]:
    raise NotImplementedError  # pragma: no cover  # only its type is wanted


fitted = late("plan_editor.records.mowing_rates_made", "fitted", _like)
"""Return the rates that sessions tell, by name; none of which they tell too little."""
