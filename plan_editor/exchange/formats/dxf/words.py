"""Words in one line: a line break or control sign within one would break the drawing's file."""

import unicodedata

LONGEST = 250
"""Characters of a text; most places of the format hold 255 bytes of Latin letters."""

_NOT_WRITTEN = frozenset({"Cc", "Cs", "Cn", "Zl", "Zp"})  # controls, half characters, breaks


def in_one_line(text: str) -> str:
    """Return a text in one line, spaces for what cannot be written, cut off where too long."""
    kept = "".join(" " if unicodedata.category(c) in _NOT_WRITTEN else c for c in text)
    return " ".join(kept.split())[:LONGEST]
