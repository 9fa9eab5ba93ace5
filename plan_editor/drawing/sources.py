"""Where the places of things are known from, and how well, in sentences."""

from collections import Counter
from collections.abc import Iterable
from typing import Any

from plan_editor.drawing.dates import in_words
from plan_editor.plan.item import Basis, Item, Method

_MOST = 5
_UNKNOWN = "place not known from any record"

_HOW = {
    Method.UNKNOWN: _UNKNOWN,
    Method.TRACED: "traced",
    Method.TAPED: "taped",
    Method.INSTRUMENT: "measured by instrument",
    Method.GNSS: "measured by GNSS",
    Method.AS_DUG: "as dug",
    Method.COMPUTED: "computed",
}


def sources(items: Iterable[Item[Any]]) -> tuple[str, ...]:
    """Return a sentence for each basis that things on the plan have, the commonest first.

    Accuracies are standard deviations of east and of north. Past the fifth the rest is counted.
    """
    of_basis = Counter(item.basis for item in items if item.shape is not None)
    found: Counter[str] = Counter()
    for basis, count in of_basis.items():
        found[_told(basis)] += count
    lines = [f"{count}: {words}." for words, count in found.most_common()]
    rest = sum(count for _, count in found.most_common()[_MOST:])
    more = (f"{rest}: by other ways, as the plan records.",) if rest else ()
    return (*lines[:_MOST], *more)


def _told(basis: Basis) -> str:
    where = f"from {basis.source}" if basis.source else ""
    when = in_words(basis.date) if basis.date and basis.date not in basis.source else ""
    words = ", ".join(filter(None, (" ".join(filter(None, (_HOW[basis.method], where))), when)))
    if basis.method is Method.UNKNOWN and basis.sd_m is None:
        return words
    return f"{words}, ±{basis.sd_m:.2f} m" if basis.sd_m else f"{words}, accuracy not recorded"
