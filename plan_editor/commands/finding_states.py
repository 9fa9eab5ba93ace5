"""What is looked for by kind and state, ``free graves``, and by coordinates."""

import re
from collections.abc import Iterator

from plan_editor.drawing.showing import State, states_of
from plan_editor.plan.item import ItemId
from plan_editor.plan.kind import Kind, kinds
from plan_editor.plan.plan import Plan

MOST = 4
"""So many lines of kinds and states are told."""

FEWEST_LETTERS = 3
"""A shorter word is the beginning of too many."""

_NUMBER = r"[+-]?\d[\d\u202f ]*(?:\.\d+)?"
_COORDINATES = re.compile(
    rf"(?:E\s*)?(?P<east>{_NUMBER})\s*(?:,|;|\s)\s*(?:N\s*)?(?P<north>{_NUMBER})", re.IGNORECASE
)
_LETTERED = re.compile(
    rf"E\s*(?P<east>{_NUMBER})\s*[,;]?\s*N\s*(?P<north>{_NUMBER})", re.IGNORECASE
)


def coordinates_in(text: str) -> tuple[float, float] | None:
    """Return the easting and northing that a text is, in metres; None where it is none.

    Read are ``553112.48 421087.15``, a comma between them too, and ``E 553 112.48
    N 421 087.15`` as the line below the ground has it.
    """
    bare = text.strip().replace("\u202f", " ")
    found = _LETTERED.fullmatch(bare) or _plain(bare)
    if found is None:
        return None
    return tuple(float(found[n].replace(" ", "")) for n in ("east", "north"))  # type: ignore[return-value]  # two of them


def _plain(text: str) -> re.Match[str] | None:
    """Return two numbers without blanks in them: otherwise nobody knows where one ends."""
    found = _COORDINATES.fullmatch(text)
    return found if found is not None and len(re.split(r"[,;\s]+", text)) == 2 else None


def things_in_state(plan: Plan, text: str) -> Iterator[tuple[str, tuple[ItemId, ...]]]:
    """Return lines of what a text means by kind and state, each with the items.

    ``graves`` is all of them; ``free graves`` and ``grave free`` those that are free; ``free``
    whatever is. Words may be shortened to three letters.
    """
    words = text.casefold().split()
    if any(len(word) < FEWEST_LETTERS for word in words):
        return
    count = 0
    for kind in kinds():
        if kind.drawn and plan.count(kind):
            for told, items in _of_kind(plan, kind, words):
                yield told, items
                count += 1
                if count == MOST:
                    return


def _of_kind(
    plan: Plan, kind: Kind, words: list[str]
) -> Iterator[tuple[str, tuple[ItemId, ...]]]:
    titles = f"{kind.title} {kind.plural}".casefold().split()
    rest = [w for w in words if not any(title.startswith(w) for title in titles)]
    if not rest:
        yield _told(plan.count(kind), kind, ""), tuple(i.id for i in plan.of(kind))
        return
    for state in states_of(kind):
        if _means(state, rest):
            items = tuple(i.id for i in plan.of(kind) if state.fits(i))
            if items:
                yield _told(len(items), kind, state.value), items


def _means(state: State, words: list[str]) -> bool:
    told = state.value.casefold().split()
    return all(any(part.startswith(word) for part in told) for word in words)


def _told(count: int, kind: Kind, state: str) -> str:
    noun = (kind.title if count == 1 else kind.plural).lower()
    return f"{count} {noun}{f': {state}' if state else ''}"
