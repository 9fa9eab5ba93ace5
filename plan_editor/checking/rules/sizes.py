"""Sizes that nothing in a churchyard has: a slip of the pen, or feet taken for metres.

What a form refuses outright, because it can only be a slip, stands with the kinds; here is what
could be, but hardly is.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from plan_editor.checking.rule import Finding, Rule, Severity
from plan_editor.checking.words import inside, named
from plan_editor.kinds import (
    ashes_plot,
    boundary,
    building,
    grave,
    hedge,
    memorial,
    path,
    tree,
    vault,
    wall,
)
from plan_editor.kinds.memorial import MemorialForm
from plan_editor.plan.item import Item
from plan_editor.plan.kind import Kind
from plan_editor.plan.plan import Plan

NAME = "sizes"

UPRIGHT = frozenset({MemorialForm.HEADSTONE, MemorialForm.CROSS, MemorialForm.TABLET})

STONE_T_M3 = 2.7
"""Tonnes in a cubic metre of granite, marble or slate; textbooks of building, from memory."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """A size and what it usually is.

    Args:
        kind: of which kind.
        what: as the sentence has it.
        of: the size of an item; None where it is not known, or does not apply.
        low, high: less and more than this is hardly ever seen.
        unit: behind the number.
        source: where low and high come from.
    """

    kind: Kind
    what: str
    of: Callable[[Item[Any]], float | None]
    low: float = 0.0
    high: float
    unit: str = "m"
    source: str


def find(plan: Plan) -> Iterator[Finding]:
    """Find sizes that are hardly ever seen."""
    for size in SIZES:
        for item in plan.of(size.kind):
            metres = size.of(item)
            if metres is not None and not size.low <= metres <= size.high:
                yield _finding(item, size, metres)


def _finding(item: Item[Any], size: Size, found: float) -> Finding:
    limit = size.high if found > size.high else size.low
    more = "more" if found > size.high else "less"
    return Finding(
        rule=NAME,
        severity=Severity.DOUBT,
        items=(item.id,),
        place=None if item.shape is None else inside(item.shape),
        text=(
            f"{named((item,))} {size.what} {found:,.2f} {size.unit}, {more} than"
            f" {limit:g} {size.unit}. {size.source}"
        ),
    )


def _length(item: Item[Any]) -> float | None:
    return None if item.rectangle is None else item.rectangle.length


def _width(item: Item[Any]) -> float | None:
    return None if item.rectangle is None else item.rectangle.width


def _longer_side(item: Item[Any]) -> float | None:
    place = item.rectangle
    return None if place is None else max(place.width, place.length)


def _broader_than_long(item: Item[Any]) -> float | None:
    place = item.rectangle
    return None if place is None else place.width / place.length


def _upright_thickness(item: Item[Any]) -> float | None:
    return _length(item) if item.details.form in UPRIGHT else None


def _upright_height(item: Item[Any]) -> float | None:
    found: float | None = item.details.height_m
    return found if item.details.form in UPRIGHT else None


def _upright_mass(item: Item[Any]) -> float | None:
    place, height = item.rectangle, _upright_height(item)
    if place is None or height is None:
        return None
    return place.width * place.length * height * STONE_T_M3


def _stem(item: Item[Any]) -> float | None:
    found: float | None = item.details.stem_m
    return found


def _crown(item: Item[Any]) -> float | None:
    return None if item.details.crown_m is None else max(item.details.crown_m)


def _height(item: Item[Any]) -> float | None:
    found: float | None = item.details.height_m
    return found


def _line_width(item: Item[Any]) -> float | None:
    shape = item.shape
    of_line = shape is not None and shape.geom_type == "LineString"
    return item.kind.width_m(item.details) or None if of_line else None


def _area(item: Item[Any]) -> float | None:
    return None if item.shape is None or not item.shape.area else item.shape.area


_PLOT = (
    "The largest plots of published regulations are 5 ft by 10 ft (1.52 by 3.05 m,"
    " Stockton-on-Tees council)."
)
_ASHES = "Usual are 0.45 to 0.7 m (custom; a parish of the diocese of Ely, 0.7 by 0.6 m)."
_STONE = (
    "Diocesan regulations allow 1.2 m, a cross up to 1.5 m, by 0.9 m by 0.15 to 0.18 m (Bath"
    " and Wells pattern, Guildford); older stones are larger."
)
_MASS = "Taken as solid stone of 2.7 t/m³; a headstone of 1.2 by 0.9 by 0.15 m has 0.44 t."
_TREE = "The thickest oaks and yews of England are about 4 m through (from memory)."
_OWN = "Our own figure: common sense."

SIZES = (
    Size(kind=grave.KIND, what="is long:", of=_length, low=0.6, high=4.0, source=_PLOT),
    Size(kind=grave.KIND, what="is broad:", of=_width, low=0.3, high=4.0, source=_PLOT),
    Size(
        kind=grave.KIND,
        what="is drawn along its side, not its head; breadth to length is",
        of=_broader_than_long,
        high=1.6,
        unit="to 1",
        source=_PLOT,
    ),
    Size(kind=vault.KIND, what="is long:", of=_longer_side, low=0.6, high=12.0, source=_OWN),
    Size(
        kind=ashes_plot.KIND, what="is long:", of=_longer_side, low=0.2, high=1.6, source=_ASHES
    ),
    Size(kind=memorial.KIND, what="is thick:", of=_upright_thickness, high=0.75, source=_STONE),
    Size(kind=memorial.KIND, what="is broad:", of=_width, low=0.05, high=4.0, source=_STONE),
    Size(kind=memorial.KIND, what="is high:", of=_upright_height, high=3.5, source=_STONE),
    Size(
        kind=memorial.KIND,
        what="would weigh",
        of=_upright_mass,
        high=3.0,
        unit="t",
        source=_MASS,
    ),
    Size(kind=tree.KIND, what="has a stem of", of=_stem, high=4.2, source=_TREE),
    Size(kind=tree.KIND, what="has a crown reaching", of=_crown, high=20.0, source=_OWN),
    Size(kind=tree.KIND, what="is high:", of=_height, high=50.0, source=_OWN),
    Size(kind=wall.KIND, what="is thick:", of=_line_width, high=2.0, source=_OWN),
    Size(kind=hedge.KIND, what="is broad:", of=_line_width, high=6.0, source=_OWN),
    Size(kind=path.KIND, what="is broad:", of=_line_width, low=0.3, high=10.0, source=_OWN),
    Size(
        kind=building.KIND,
        what="covers",
        of=_area,
        low=0.5,
        high=10_000.0,
        unit="m²",
        source=_OWN,
    ),
    Size(
        kind=boundary.KIND,
        what="holds",
        of=_area,
        low=50.0,
        high=200_000.0,
        unit="m²",
        source="Few are of less or more; look whether the plan is in metres.",
    ),
)

RULE = Rule(
    name=NAME,
    title="Absurd sizes",
    help=(
        "Graves, stones, trees, walls and paths of sizes that are hardly ever seen: a slip of"
        " the pen, or feet taken for metres. Each finding names the figure and its source."
    ),
    source="Published burial and memorial regulations, named in each finding.",
    find=find,
    order=40,
)
