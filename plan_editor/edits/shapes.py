"""The edits that make other shapes of lines and areas: split, join, cut out, bring to, thin.

Of what comes apart the largest part stays what it was, with number, details and all that
refers to it; the others get copies of its details and no number.
"""

from collections.abc import Container, Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from plan_editor.edits.chosen import chosen, things
from plan_editor.edits.copying import derived
from plan_editor.edits.laying import laid, laid_as_before, spot, workable
from plan_editor.errors import EditRefused
from plan_editor.geometry.buffers import widened
from plan_editor.geometry.cutting import DUST_M2, cut_out, split
from plan_editor.geometry.edges import Place
from plan_editor.geometry.line_ends import brought_to
from plan_editor.geometry.simplifying import simplified
from plan_editor.geometry.tolerance import stored
from plan_editor.plan.change import Change
from plan_editor.plan.item import Item, ItemId, new_id
from plan_editor.plan.kind import Form
from plan_editor.plan.plan import Plan

Shapes = NDArray[np.object_]


@dataclass(frozen=True, slots=True, kw_only=True)
class Split:
    """Split lines and areas where a line goes right across them; others stay as they are.

    Args:
        cut: the corners of the line.
        seed: the ids of the parts that come follow from it.
    """

    ids: tuple[ItemId, ...]
    cut: tuple[Place, ...]
    seed: ItemId = field(default_factory=new_id)
    called: str = ""

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Split {self.called or things(self.ids)}"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return each with its largest part, and the others as they come.

        Raises:
            EditRefused: one is not on the plan or is neither line nor area, or the line goes
                right across none of them.
        """
        items = [workable(i) for i in chosen(plan, self.ids)]
        line = _line(self.cut)
        parted = [(item, split(shape, line)) for item, shape in items]
        if all(len(parts) < 2 for _, parts in parted):
            place = spot(plan, (line.xy[0][-1], line.xy[1][-1]))
            raise EditRefused(
                f"The line that ends at {place} goes right across nothing that is to be split."
                " Nothing was changed. Draw it from one side to the other."
            )
        return _parted(plan, [p for p in parted if len(p[1]) > 1], self.seed)


@dataclass(frozen=True, slots=True, kw_only=True)
class CutOut:
    """Cut a piece out of areas: it may leave holes, or several parts.

    Args:
        piece: its outline.
        by: the thing whose ground is cut out, instead of an outline.
        seed: the ids of the parts that come follow from it.
    """

    ids: tuple[ItemId, ...]
    piece: tuple[Place, ...] = ()
    by: ItemId | None = None
    seed: ItemId = field(default_factory=new_id)
    called: str = ""

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Cut a piece out of {self.called or things(self.ids)}"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return each with its largest part, and the others as they come.

        Raises:
            EditRefused: one is not on the plan or no area, the outline crosses itself, the
                piece lies on none of them, or nothing would be left of one.
        """
        items = [workable(i) for i in chosen(plan, self.ids) if i.id != self.by]
        piece = self._piece(plan)
        cut = [(i, s) for i, s in items if _area_in_common(s, piece) > DUST_M2]
        if not cut:
            inside = piece.representative_point()
            place = spot(plan, (inside.x, inside.y))
            raise EditRefused(
                f"The piece at {place} lies on no area that is to be cut. Nothing was changed."
                " Choose what it is cut out of, and draw it over that."
            )
        parted = [(item, cut_out(shape, piece)) for item, shape in cut]
        if gone := next((i for i, parts in parted if not parts), None):
            raise EditRefused(
                f"Nothing would be left of {gone.called()}. Nothing was changed. Remove it"
                " instead, or draw a smaller piece."
            )
        return _parted(plan, parted, self.seed)

    def _piece(self, plan: Plan) -> BaseGeometry:
        if self.by is None:
            return _outline(plan, self.piece)
        (item,) = chosen(plan, (self.by,))
        ground = ground_of(item)
        if ground is None:
            raise EditRefused(
                f"{item.called()} covers no ground that could be cut out. Nothing was changed."
                " Draw the piece, or give the line a width first."
            )
        return ground


@dataclass(frozen=True, slots=True, kw_only=True)
class ToLine:
    """Cut a line back to where it meets another thing, or carry it on until it does.

    Args:
        at_start: whether its first end is meant, or its last.
        to: what it is brought to.
        near: where that was pointed at: of several places the nearest is taken.
    """

    id: ItemId
    at_start: bool
    to: ItemId
    near: Place
    called: str = ""

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Bring {self.called or '1 thing'} to a line"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the line before and after.

        Raises:
            EditRefused: one is not on the plan, the one is no line or the other neither line
                nor area, or they do not meet, or do so already.
        """
        line, other = (plan_item for i in (self.id, self.to) for plan_item in chosen(plan, [i]))
        item, shape = workable(line)
        if item.form is not Form.LINE or other.shape is None or other.id == item.id:
            raise EditRefused(
                f"{item.called()} cannot be brought to {other.called()}. Nothing was changed."
                " Choose a line, then another line or the edge of an area."
            )
        after = brought_to(shape, other.shape, at_start=self.at_start, near=self.near)
        if after is None:
            east, north = shapely.get_coordinates(shape)[0 if self.at_start else -1].tolist()
            raise EditRefused(
                f"{item.called()}, carried on from its end at {spot(plan, (east, north))},"
                f" meets {other.called()} nowhere, or ends there already. Nothing was changed."
                " Choose its other end, or turn it first."
            )
        return (Change(item, laid(plan, item, after)),)


@dataclass(frozen=True, slots=True, kw_only=True)
class Simplify:
    """Leave out corners of lines and areas that hardly matter; shared edges stay shared.

    Args:
        tolerance: how far a corner that goes may lie off, in metres.
    """

    ids: tuple[ItemId, ...]
    tolerance: float
    called: str = ""

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Simplify {self.called or things(self.ids)}"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return those that lose a corner, before and after.

        An edge that is shared with something else on the plan stays as it is.

        Raises:
            EditRefused: one is not on the plan, or is neither line nor area; no corner would
                go; or an outline would cross itself or vanish.
        """
        items = [workable(i) for i in chosen(plan, self.ids)]
        own = {i.id for i, _ in items}
        shapes = [s for _, s in items]
        after = simplified(shapes, self.tolerance, _beside(shapes, plan, own))
        fewer = [
            Change(item, laid(plan, item, thin))
            for (item, shape), thin in zip(items, after, strict=True)
            if shapely.get_num_coordinates(thin) < shapely.get_num_coordinates(shape)
        ]
        if not fewer:
            raise EditRefused(
                "No corner can be left out: each lies farther off, or is shared with something"
                " that stays. Nothing was changed. Allow for more, or choose that too."
            )
        return tuple(fewer)


def _beside(
    shapes: Sequence[BaseGeometry], plan: Plan, own: Container[ItemId]
) -> list[BaseGeometry]:
    """Return what else on the plan meets an edge of some shapes; there may be common sides."""
    others = [i.shape for i in plan.items.values() if i.id not in own and i.shape is not None]
    edges = _edges(others)
    met, _ = shapely.STRtree(_edges(shapes)).query(edges, predicate="intersects")
    found: list[BaseGeometry] = edges[np.unique(met)].tolist()
    return found


def _edges(shapes: Sequence[BaseGeometry]) -> Shapes:
    """Return lines as they are, and the outlines of areas."""
    held = np.array(shapes, dtype=object)
    return np.where(shapely.get_dimensions(held) == 2, shapely.boundary(held), held)


def ground_of(item: Item[Any]) -> BaseGeometry | None:
    """Return the ground that an item covers: its area, or its line where it has a width."""
    if item.shape is None or item.form is not Form.LINE:
        return None if item.form is Form.POINT else item.shape
    width = item.kind.width_m(item.details)
    return widened(item.shape, width) if width else None


def _line(corners: Sequence[Place]) -> LineString:
    try:
        shape = LineString(corners)
        stored(shape)
    except (ValueError, shapely.errors.GEOSException) as fault:
        raise EditRefused(
            "A line needs two ends that lie apart. Nothing was changed. Click the next corner."
        ) from fault
    return shape


def _outline(plan: Plan, corners: Sequence[Place]) -> BaseGeometry:
    try:
        shape = Polygon(corners)
        stored(shape)
    except (ValueError, shapely.errors.GEOSException) as fault:
        where = f" by {spot(plan, corners[0])}" if corners else ""
        raise EditRefused(
            f"The piece{where} has an outline that crosses itself, or no area. Nothing was"
            " changed. Draw it anew."
        ) from fault
    return shape


def _area_in_common(one: BaseGeometry, other: BaseGeometry) -> float:
    return float(shapely.intersection(one, other).area)


def _parted(
    plan: Plan,
    parted: Iterable[tuple[Item[Any], tuple[BaseGeometry, ...]]],
    seed: ItemId,
) -> tuple[Change, ...]:
    """Return each item with its first part, and the others as they come."""
    told = tuple(parted)
    fresh = iter(derived(seed, sum(len(parts) for _, parts in told)))
    return tuple(change for item, parts in told for change in _apart(plan, item, parts, fresh))


def _apart(
    plan: Plan, item: Item[Any], parts: Sequence[BaseGeometry], fresh: Iterator[ItemId]
) -> Iterator[Change]:
    yield Change(item, laid_as_before(plan, item, parts[0]))
    for part in parts[1:]:
        copy = replace(laid_as_before(plan, item, part), id=next(fresh), number="")
        yield Change(None, copy)
