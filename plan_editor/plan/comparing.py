"""Two plans compared: what came, what went, what is not as it was."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from plan_editor.geometry.bearings import bearing
from plan_editor.geometry.tolerance import SAME
from plan_editor.plan.checks import spoken
from plan_editor.plan.differences import Difference, differences
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.kind import Form
from plan_editor.plan.plan import Plan
from plan_editor.survey.grids.crossing import crossed
from plan_editor.survey.grids.grid import LOCAL, Grid

SAME_THROUGH_SYSTEMS = 0.01
"""Places taken from one coordinate system to another are the same within this, in metres: ways
between systems, and a move by marks, are no better. Our own figure."""

NEAR = 0.5
"""Two things of a kind whose middles are nearer, in metres, may be the same; our own figure."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved:
    """How a thing lies now against where it lay.

    Args:
        distance_m: between the middles, in metres of the grid.
        bearing_deg: of that way, from grid north; 0 where there is none to go.
        turned_deg: clockwise, within half a turn; 0 of what is no rectangle.
        reshaped: whether it has another shape, wherever it lies.
    """

    distance_m: float
    bearing_deg: float
    turned_deg: float
    reshaped: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """One thing in two plans.

    Args:
        before: as the first plan has it, but at its place in the grid of the second.
        after: as the second plan has it.
        differences: field by field; the place is one of them.
        moved: how its place differs; None where it does not, or has none on one side.
    """

    before: Item[Any]
    after: Item[Any]
    differences: tuple[Difference, ...]
    moved: Moved | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """In what two plans differ.

    Args:
        added: on the second plan alone.
        removed: on the first plan alone, at their places in the grid of the second.
        changed: on both, and not the same.
        alike: of two origins, but of one kind, and with the same number or at the same place:
            they seem the same, and are told nowhere else.
        same: how many things are the same.
        grids: those of the first and of the second.
        places: whether places could be compared; a local grid is tied to nothing.
    """

    added: tuple[Item[Any], ...]
    removed: tuple[Item[Any], ...]
    changed: tuple[Pair, ...]
    alike: tuple[Pair, ...]
    same: int
    grids: tuple[Grid, Grid]
    places: bool

    @property
    def differs(self) -> bool:
        """Whether the plans are not the same."""
        return bool(self.added or self.removed or self.changed or self.alike)


def compared(before: Plan, after: Plan) -> Comparison:
    """Compare two plans; things are known by their ids.

    Where the plans lie in two grids, places are compared in the coordinates of the second.

    Raises:
        CannotUse: there is no known way between the two coordinate systems.
    """
    places = before.grid.crs == after.grid.crs or LOCAL not in (before.grid.crs, after.grid.crs)
    there = _carried(before, after.grid) if places else before.items
    one = {i for i, item in there.items() if _kept(item, after.items.get(i))}
    within = _tolerance(before.grid, after.grid) if places else None
    both = [_pair(there[i], after.items[i], within) for i in there if i in one]
    removed = [item for i, item in there.items() if i not in one]
    added = [item for i, item in after.items.items() if i not in one]
    alike = [_pair(b, a, within) for b, a in _alike(removed, added, places=places)]
    told = {p.before.id for p in alike}, {p.after.id for p in alike}
    changed = tuple(p for p in both if p.differences)
    return Comparison(
        added=tuple(i for i in added if i.id not in told[1]),
        removed=tuple(i for i in removed if i.id not in told[0]),
        changed=changed,
        alike=tuple(alike),
        same=len(both) - len(changed),
        grids=(before.grid, after.grid),
        places=places,
    )


def moved(before: Item[Any], after: Item[Any]) -> Moved | None:
    """Return how a thing lies against where it lay; None where it has no place on one side."""
    if before.shape is None or after.shape is None:
        return None
    east, north = _way(before.shape, after.shape)
    far = float(np.hypot(east, north))
    turned = 0.0
    if before.rectangle is not None and after.rectangle is not None:
        turn = after.rectangle.bearing_deg - before.rectangle.bearing_deg
        turned = (turn + 180.0) % 360.0 - 180.0
    return Moved(
        distance_m=far,
        bearing_deg=bearing(east, north) if far >= SAME else 0.0,
        turned_deg=turned,
        reshaped=_reshaped(before, after, (east, north)),
    )


def _kept(before: Item[Any], after: Item[Any] | None) -> bool:
    return after is not None and after.kind == before.kind


def _pair(before: Item[Any], after: Item[Any], within: float | None) -> Pair:
    """Return two items compared; places within so many metres are the same, any for None."""
    if before == after:
        return Pair(before=before, after=after, differences=())
    found = differences(before, after)
    if within is None or _lie_alike(before, after, within):
        found = tuple(d for d in found if not d.field.is_place)
    lies = any(d.field.is_place for d in found)
    return Pair(
        before=before,
        after=after,
        differences=found,
        moved=moved(before, after) if lies else None,
    )


def _tolerance(one: Grid, other: Grid) -> float:
    """Return within how many metres places are the same; 0 where they are to be equal."""
    if one == other:
        return 0.0
    return SAME if one.crs == other.crs else SAME_THROUGH_SYSTEMS


def _lie_alike(one: Item[Any], other: Item[Any], within: float) -> bool:
    """Return whether two items lie alike; it does not matter where an outline begins.

    But it does of a rectangle, which begins at its head, and of a line, which leads somewhere.
    """
    if one.shape is None or other.shape is None:
        return one.shape is other.shape
    if within and one.rectangle is not None and other.rectangle is not None:
        # their outlines are whole millimetres: half of one is rounded up here and down there
        away = np.subtract(one.rectangle.corners(), other.rectangle.corners())
        return float(np.abs(away).max()) <= within
    if shapely.equals_exact(one.shape, other.shape, within):
        return True
    if one.form is Form.RECTANGLE is other.form or one.form is Form.LINE:
        return False
    return bool(shapely.equals_exact(one.shape, other.shape, within, normalize=True))


def _carried(plan: Plan, grid: Grid) -> Mapping[ItemId, Item[Any]]:
    """Return the items of a plan as they lie in another grid.

    Rectangles are lost on the way to another system, as their sides need not be of one length
    there; their outlines are not.
    """
    if plan.grid == grid:
        return plan.items
    east, north = grid.to_plan(*plan.grid.to_crs(0.0, 0.0))
    shift = (east, north) if plan.grid.crs == grid.crs else None
    placed = [i for i in plan.items.values() if i.shape is not None]
    shapes = shapely.transform([i.shape for i in placed], _way_to(plan.grid, grid))
    found = dict(plan.items)
    found |= {i.id: _lying(i, s, shift) for i, s in zip(placed, shapes, strict=True)}
    return found


def _lying(
    item: Item[Any], shape: BaseGeometry, shift: tuple[float, float] | None
) -> Item[Any]:
    held = item.rectangle if shift is not None else None
    return replace(item, shape=shape, rectangle=held and held.moved(*(shift or (0.0, 0.0))))


def _way_to(source: Grid, target: Grid) -> Any:
    def way(xy: Any) -> Any:
        there = np.column_stack(source.to_crs(xy[:, 0], xy[:, 1]))
        if source.crs != target.crs:
            found = crossed(there, source=source.crs, target=target.crs)
            there = np.column_stack((found.east, found.north))
        return np.column_stack(target.to_plan(there[:, 0], there[:, 1]))

    return way


def _way(before: BaseGeometry, after: BaseGeometry) -> tuple[float, float]:
    one, other = before.centroid, after.centroid
    return other.x - one.x, other.y - one.y


def _reshaped(before: Item[Any], after: Item[Any], way: tuple[float, float]) -> bool:
    if before.rectangle is not None and after.rectangle is not None:
        one, other = before.rectangle, after.rectangle
        more = one.width - other.width, one.length - other.length
        return max(map(abs, more)) >= SAME
    assert before.shape is not None  # noqa: S101  # asked only of what has a place
    shifted = shapely.transform(before.shape, lambda xy: xy + way)
    return not _lie_alike(replace(before, shape=shifted), after, 2 * SAME)


def _alike(
    removed: Iterable[Item[Any]], added: Iterable[Item[Any]], *, places: bool
) -> Iterator[tuple[Item[Any], Item[Any]]]:
    """Return pairs that seem the same: by number first, then, if wanted, by place."""
    gone, come = list(removed), list(added)
    by_number = list(_by_number(gone, come))
    yield from by_number
    if places:
        told = {i.id for pair in by_number for i in pair}
        yield from _by_place(
            [i for i in gone if i.id not in told], [i for i in come if i.id not in told]
        )


def _by_number(
    gone: list[Item[Any]], come: list[Item[Any]]
) -> Iterator[tuple[Item[Any], Item[Any]]]:
    there = _numbered(come)
    for key, items in _numbered(gone).items():
        if len(items) == 1 and len(there.get(key, ())) == 1:
            yield items[0], there[key][0]


def _numbered(items: Iterable[Item[Any]]) -> dict[tuple[str, str], list[Item[Any]]]:
    found: dict[tuple[str, str], list[Item[Any]]] = {}
    for item in items:
        if item.number:
            found.setdefault((item.kind.name, spoken(item.number)), []).append(item)
    return found


def _by_place(
    gone: list[Item[Any]], come: list[Item[Any]]
) -> Iterator[tuple[Item[Any], Item[Any]]]:
    """Return pairs of one kind, each the other's nearest."""
    for kind in dict.fromkeys(i.kind for i in gone):
        here = [i for i in gone if i.kind == kind and i.shape is not None]
        there = [i for i in come if i.kind == kind and i.shape is not None]
        if here and there:
            onward, back = _nearest(here, there), _nearest(there, here)
            yield from ((here[n], there[m]) for n, m in onward.items() if back.get(m) == n)


def _nearest(here: list[Item[Any]], there: list[Item[Any]]) -> dict[int, int]:
    """Return by the place in one list the place in the other of what is nearest, if near."""
    tree = shapely.STRtree(shapely.centroid([i.shape for i in there]))
    found = tree.query_nearest(
        shapely.centroid([i.shape for i in here]), max_distance=NEAR, all_matches=False
    )
    return dict(found.T.tolist())
