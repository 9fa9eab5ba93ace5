"""Dates as they are given on the command line."""

from datetime import date

from plan_editor.commands.today import today
from plan_editor.errors import CannotUse


def day(given: str | None) -> str:
    """Return an ISO date: the one given, or today's.

    Raises:
        CannotUse: it is no date of the calendar.
    """
    if given is None:
        return today()
    try:
        return date.fromisoformat(given).isoformat()
    except ValueError:
        raise CannotUse(f"“{given}” is no date. Write it as 2026-05-16.") from None
