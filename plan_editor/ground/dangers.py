"""Which of the inspections of a thing counts: a danger stands until it surely ended."""

from collections.abc import Iterable
from itertools import chain

from plan_editor.kinds.inspection import InspectionDetails, Result
from plan_editor.plan.item import Item

Inspection = Item[InspectionDetails]

_NO_DAY = "9999-12-31"


def ordered(found: Iterable[Inspection]) -> tuple[Inspection, ...]:
    """Return inspections of one thing, the latest first; of one day the last recorded."""
    recorded = reversed(tuple(found))
    return tuple(sorted(recorded, key=_latest, reverse=True))


def counting(found: Iterable[Inspection]) -> Inspection | None:
    """Return the inspection of one thing that counts; None where none came to a result.

    A failed one stands until another is surely of a later day, however incomplete its date is.
    What was made safe is out of danger, by the same rule.
    """
    told = [i for i in ordered(found) if i.details.result is not None]
    surely = max(map(_earliest, told), default="")
    failed = (i for i in told if i.details.result is Result.IMMEDIATE and _latest(i) >= surely)
    return next(chain(failed, told), None)


def _earliest(found: Inspection) -> str:
    return _filled(found.details.date, "0000-01-01") + _hour(found)


def _latest(found: Inspection) -> str:
    # "2025" may mean its last day; no date at all may mean any day
    return _filled(found.details.date, _NO_DAY) + _hour(found)


def _hour(found: Inspection) -> str:
    """Return what puts it after the failure of its day: nobody makes safe what is sound."""
    exact = len(found.details.date) == len(_NO_DAY)
    return "T" if exact and found.details.result is Result.MADE_SAFE else ""


def _filled(date: str, rest: str) -> str:
    return date + rest[len(date) :]
