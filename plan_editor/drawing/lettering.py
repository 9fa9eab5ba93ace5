"""Widths of lettering in the shipped fonts, and which font has which character."""

import re
import unicodedata
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import Enum
from functools import cache
from itertools import groupby

from fontTools.ttLib import TTFont  # type: ignore[import-untyped]  # ships no types

from plan_editor.resources import resource


class Face(Enum):
    """A shipped font, by the name of its file in ``resources/fonts``."""

    REGULAR = "SourceSans3-Regular"
    SEMIBOLD = "SourceSans3-SemiBold"
    FALLBACK = "DejaVuSansCondensed"


CAPITAL = 0.66
"""Height of capitals and figures of Source Sans 3 as a part of the size."""

SMALLEST = 1.8 / CAPITAL
"""The smallest size of lettering on any sheet: capitals of 1.8 mm, the least of ISO 3098."""

DESCENT = 0.22
"""How far letters such as g reach below the baseline, as a part of the size."""

LEADING = 1.25
"""From baseline to baseline of running text, as a part of the size."""

_BREAKS = re.compile(r"[ \t\r\n]+")

UNKNOWN = "?"
"""Stands for a character that no shipped font has."""


def size_of(capitals_mm: float) -> float:
    """Return the size of lettering whose capitals are so many millimetres high."""
    return capitals_mm / CAPITAL


@dataclass(frozen=True, slots=True)
class Run:
    """A piece of text that one font can write."""

    face: Face
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class _Widths:
    # of each character, by its code, as a part of the size
    of: Mapping[str, float]


@cache
def _widths(face: Face) -> _Widths:
    with TTFont(resource(f"fonts/{face.value}.ttf"), lazy=True) as font:
        per_em = font["head"].unitsPerEm
        metrics = font["hmtx"].metrics
        found = {chr(c): metrics[name][0] / per_em for c, name in font.getBestCmap().items()}
    return _Widths(of=found)


@cache
def runs(text: str, *, bold: bool = False) -> tuple[Run, ...]:
    """Return a text in pieces, each with a font that has all of its characters.

    Letters and their accents are joined where one sign stands for both; line ends and tabs
    become spaces; a character that no font has becomes a question mark.
    """
    told = [(_face(c, bold=bold), c) for c in _plain(text)]
    known = [(face or _first(bold=bold), c if face else UNKNOWN) for face, c in told]
    pieces = groupby(known, key=lambda k: k[0])
    return tuple(Run(face, "".join(c for _, c in piece)) for face, piece in pieces)


@cache
def width(text: str, *, bold: bool = False) -> float:
    """Return how long a text is, as a part of its size."""
    return sum(_widths(r.face).of[c] for r in runs(text, bold=bold) for c in r.text)


def unwritable(texts: Iterable[str]) -> tuple[str, ...]:
    """Return the characters that no shipped font has, each once, in order."""
    every = set("".join(_plain(t) for t in texts))
    return tuple(sorted(c for c in every if _face(c, bold=False) is None))


def wrapped(text: str, size: float, room: float, *, bold: bool = False) -> tuple[str, ...]:
    """Return a text as lines, none longer than the room unless one character is.

    A word that is longer than the room is broken where it must be; at a no-break space a line
    does not end.
    """
    lines: list[str] = []
    line = ""
    for word in _BREAKS.split(text.strip()):
        longer = f"{line} {word}".strip()
        if width(longer, bold=bold) * size <= room:
            line = longer
            continue
        if line:
            lines.append(line)
        *broken, line = _broken(word, room / size, bold=bold)
        lines.extend(broken)
    return (*lines, line) if line else tuple(lines)


def shortened(text: str, size: float, room: float, *, bold: bool = False) -> str:
    """Return a text that fits, its end replaced by an ellipsis where it must be."""
    if width(text, bold=bold) * size <= room:
        return text
    kept = text
    while kept and width(kept.rstrip() + "…", bold=bold) * size > room:
        kept = kept[:-1]
    return kept.rstrip() + "…"


def _broken(word: str, room: float, *, bold: bool) -> tuple[str, ...]:
    parts = [""]
    for c in word:
        if parts[-1] and width(parts[-1] + c, bold=bold) > room:
            parts.append("")
        parts[-1] += c
    return tuple(parts)


def _plain(text: str) -> str:
    joined = unicodedata.normalize("NFC", text)
    return "".join(" " if unicodedata.category(c) in {"Cc", "Zl", "Zp"} else c for c in joined)


def _first(*, bold: bool) -> Face:
    return Face.SEMIBOLD if bold else Face.REGULAR


def _face(character: str, *, bold: bool) -> Face | None:
    faces = (_first(bold=bold), Face.FALLBACK)
    return next((f for f in faces if character in _widths(f).of), None)
