"""Materials of memorials as people write them, held against a list of what is allowed."""

import re
from enum import Enum, auto

_BETWEEN = re.compile(r"[,;]")
_WORD = re.compile(r"[\w'’-]+")

_NONE = frozenset({"no", "not", "non", "except", "without", "never"})
_TO_JUDGE = _NONE.union(
    ("polished", "mirror", "glazed", "painted", "coated", "clad", "veneer", "veneered"),
    ("imitation", "imitated", "reconstituted", "reconstructed", "artificial", "simulated"),
    ("synthetic", "composite", "cast", "moulded", "faux", "mock", "fake", "effect", "style"),
    ("like", "look", "and", "or", "with", "on", "plus", "granite", "marble", "slate"),
    ("limestone", "sandstone", "basalt", "quartz", "concrete", "cement", "terrazzo", "resin"),
    ("plastic", "acrylic", "fibreglass", "glass", "metal", "steel", "iron", "bronze"),
    ("aluminium", "wood", "oak", "teak", "brick", "ceramic", "porcelain"),
)
"""Words that may make it another thing: how it is worked or joined, a second material."""


class Named(Enum):
    """How a material is named by a list."""

    PLAINLY = auto()
    PERHAPS = auto()
    NOT = auto()


def named(material: str, listed: str) -> Named:
    """Return how a material is named by a list with commas or semicolons.

    Only whole words count, so that a
    slate-grey granite is no slate. Where more is said that may make it
    something else (polished, imitation, not, with, a second stone) somebody has to judge.
    """
    rest = _words(material)
    entries = sorted(
        (w for w in map(_words, _BETWEEN.split(listed)) if w), key=len, reverse=True
    )
    found = False
    for entry in entries:
        if _NONE.isdisjoint(entry):
            without = _without(rest, entry)
            found = found or without != rest
            rest = without
    if not found:
        return Named.NOT
    return Named.PLAINLY if _TO_JUDGE.isdisjoint(rest) else Named.PERHAPS


def is_plainly(material: str, wanted: str) -> bool:
    """Return whether a material is one that is wanted, and nothing else."""
    return named(material, wanted) is Named.PLAINLY


def _words(text: str) -> tuple[str, ...]:
    return tuple(_WORD.findall(text.casefold()))


def _without(words: tuple[str, ...], entry: tuple[str, ...]) -> tuple[str, ...]:
    """Return words without each place in which those of an entry follow each other."""
    kept: list[str] = []
    at = 0
    while at < len(words):
        if words[at : at + len(entry)] == entry:
            at += len(entry)
        else:
            kept.append(words[at])
            at += 1
    return tuple(kept)
