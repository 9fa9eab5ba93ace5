"""Dates as people read them."""

_MONTHS = (
    "January", "February", "March", "April", "May", "June", "July",
    "August", "September", "October", "November", "December",
)  # fmt: skip


def in_words(date: str) -> str:
    """Return an ISO date, which may stop after the year or the month, as ``20 July 2026``.

    What is no date is returned as it stands.
    """
    year, _, rest = date.partition("-")
    month, _, day = rest.partition("-")
    if not rest:
        return date
    if not (month.isdecimal() and 1 <= int(month) <= len(_MONTHS)):
        return date
    named = f"{_MONTHS[int(month) - 1]} {year}"
    return f"{int(day)} {named}" if day.isdecimal() else named
