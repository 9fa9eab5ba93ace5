"""Numbers in the order in which people count, and as they write them."""

import re


def natural(number: str) -> list[tuple[str, int]]:
    """Return what to sort a number by, so that C 2 stands before C 10."""
    parts = re.findall(r"\d+|\D+", number)
    return [("", int(t)) if t.isdecimal() else (t, 0) for t in parts]


def signed(value: float, places: int) -> str:
    """Return a number with its sign: ``+0.004``; nought is ``+0.000``, never below."""
    return f"{round(value, places) + 0.0:+.{places}f}"
