"""Days of the calendar, reckoned from dates that may stop after the year or the month."""

from calendar import monthrange
from datetime import date as Day  # noqa: N812  # dates here are texts
from datetime import timedelta

_LAST_YEAR = 9999


def first_day(date: str) -> str:
    """Return the first day that an ISO date can mean: 1 January of ``2025``."""
    return date + "0000-01-01"[len(date) :]


def last_day(date: str) -> str:
    """Return the last day that an ISO date can mean: 28 February of ``2026-02``."""
    if not date:
        return ""
    year, month, day = (*date.split("-"), "", "")[:3]
    month = month or "12"
    return f"{year}-{month}-{day or monthrange(int(year), int(month))[1]:02}"


def months_after(date: str, months: int) -> str:
    """Return the day so many months after an ISO date, a whole one.

    Where that month is too short for the day it is its last, as the calendar month is
    reckoned in law: Interpretation Act 1978, Schedule 1; Dodds v Walker [1981] 1 WLR 1027.
    What would come after the year 9999 is its last day.
    """
    year, month, day = (int(part) for part in date.split("-"))
    count = year * 12 + month - 1 + months
    year, month = count // 12, count % 12 + 1
    if year > _LAST_YEAR:
        return f"{_LAST_YEAR}-12-31"
    return f"{year:04}-{month:02}-{min(day, monthrange(year, month)[1]):02}"


def days_after(date: str, days: int) -> str:
    """Return the day so many days after an ISO date, a whole one; at most the last of 9999."""
    since = Day.fromisoformat(date)
    return (since + timedelta(days=min(days, (Day.max - since).days))).isoformat()
