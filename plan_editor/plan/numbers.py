"""Numbers in the order in which people count."""

import re


def natural(number: str) -> list[tuple[str, int]]:
    """Return what to sort a number by, so that C 2 stands before C 10."""
    parts = re.findall(r"\d+|\D+", number)
    return [("", int(t)) if t.isdecimal() else (t, 0) for t in parts]
