"""Words of notices and letters: the shipped ones, the parish's own, and what is filled in."""

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from plan_editor.kinds import wording
from plan_editor.plan.plan import Plan
from plan_editor.resources import resource

BLANKS: Mapping[str, str] = {
    "stone": "what the stone is called on the plan",
    "date": "the day of the notice or letter",
    "until": "the last day for an answer",
    "days": "how many days there are for it",
    "parish": "the name of the parish",
    "diocese": "the name of the diocese",
    "contact": "whom to ask, as the parish's figures say",
    "name": "the name of the person written to, where names are asked for",
    "found": "the day on which the stone was found unsafe",
}
"""What may stand in braces, and what it means."""

BY_HAND = "\N{NO-BREAK SPACE}" + "_" * 24
"""Stands where something is not known, to be written on."""

_BRACED = re.compile(r"\{([^{}]*)\}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Wording:
    """The words of a notice or a letter.

    Args:
        name: never changes: ``notice``.
        title: as people read it.
        words: paragraphs, parted by empty lines; the first is the heading.
        source: whose words they are.
        own: whether the parish's own words take the place of the shipped ones.
    """

    name: str
    title: str
    words: str
    source: str
    own: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Worded:
    """A wording with its blanks filled in.

    Args:
        heading: the first paragraph.
        paragraphs: all others.
        unknown: what stood in braces and is none of ``BLANKS``; it stands there still.
        by_hand: the blanks that nothing is known for; a line to write on stands there.
    """

    heading: str
    paragraphs: tuple[str, ...]
    unknown: tuple[str, ...]
    by_hand: tuple[str, ...]


@cache
def shipped_wordings() -> tuple[Wording, ...]:
    """Return the wordings that come with the program."""
    table = tomllib.loads(resource("wordings.toml").read_text("utf-8"))
    return tuple(
        Wording(name=row["name"], title=row["title"], words=row["words"], source=row["source"])
        for row in table["wording"]
    )


def wordings(plan: Plan) -> tuple[Wording, ...]:
    """Return the words that a plan's parish uses: its own, and the shipped ones for the rest.

    A wording of the plan takes the place of the shipped one with its name or title, however it
    is written; of several the last entered.
    """
    own = {
        _plain(i.details.name): i.details
        for i in plan.of(wording.KIND)
        if i.details.words.strip()
    }
    return tuple(_own(shipped, own) for shipped in shipped_wordings())


def wording_named(plan: Plan, name: str) -> Wording:
    """Return the words for one thing, the parish's own where there are any.

    Raises:
        LookupError: nothing is worded for that.
    """
    found = next((w for w in wordings(plan) if w.name == name), None)
    if found is None:
        raise LookupError(name)
    return found


def as_own(plan: Plan) -> tuple[wording.WordingDetails, ...]:
    """Return the shipped words that a parish has no words of its own for, to be changed."""
    return tuple(
        wording.WordingDetails(name=w.title, words=w.words.strip())
        for w in wordings(plan)
        if not w.own
    )


def worded(words: str, given: Mapping[str, str]) -> Worded:
    """Return words with their blanks filled in.

    Args:
        words: paragraphs, parted by empty lines.
        given: what is filled in, by the names of ``BLANKS``; empty where it is not known.
    """
    braced = dict.fromkeys(name.strip() for name in _BRACED.findall(words))

    def fill(found: re.Match[str]) -> str:
        name = found[1].strip()
        return (given.get(name) or BY_HAND) if name in BLANKS else found[0]

    # what is filled in is never looked through for braces again
    parts = [_BRACED.sub(fill, p.strip()) for p in re.split(r"\n[ \t\r]*\n", words)]
    heading, *rest = [p for p in parts if p] or [""]
    return Worded(
        heading=" ".join(heading.split()),
        paragraphs=tuple(rest),
        unknown=tuple(n for n in braced if n not in BLANKS),
        by_hand=tuple(n for n in braced if n in BLANKS and not given.get(n)),
    )


def _own(shipped: Wording, own: Mapping[str, wording.WordingDetails]) -> Wording:
    told = own.get(_plain(shipped.name)) or own.get(_plain(shipped.title))
    if told is None:
        return shipped
    return Wording(
        name=shipped.name, title=shipped.title, words=told.words, source=told.source, own=True
    )


def _plain(name: str) -> str:
    return " ".join(name.split()).casefold()
