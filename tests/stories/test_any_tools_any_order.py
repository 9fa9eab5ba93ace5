"""Whatever tools are taken up in whatever order: always valid, undone whole, saved as it is.

A person at a small churchyard, made by hypothesis: takes up any declared tool, points at things
and beside them, takes up what is offered, types lengths and what is asked for, joins, thins,
undoes, and saves now and then. Underneath is a real plan file.
"""

import itertools
from collections.abc import Iterable
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any
from uuid import UUID

import pytest
import shapely
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule
from shapely import LineString, Point, Polygon
from strategies import kind_of

from plan_editor.drafting.tool import Act, Answer, Pointer, ToolButton, tools
from plan_editor.drafting.typed import typed_place
from plan_editor.edits.basic import Add
from plan_editor.edits.chosen import called_on
from plan_editor.edits.joining import Join
from plan_editor.edits.shapes import Simplify
from plan_editor.errors import CannotUse
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds.burial import BurialDetails
from plan_editor.kinds.memorial import MemorialDetails
from plan_editor.kinds.path import PathDetails
from plan_editor.kinds.zone import ZoneDetails
from plan_editor.plan.document import Document
from plan_editor.plan.item import Item, ItemId, new_item
from plan_editor.plan.kind import kinds
from plan_editor.session import Session
from plan_editor.storage.plan_file import PlanFile
from plan_editor.survey.grids.grid import LOCAL, Grid

BUTTONS = tools()
DRAWN = [k for k in kinds() if k.drawn and not k.pinned]
TYPED = ["", "1", "2.5", "9' 4½\"", "90", "45", "S 30 W", "-12", "A 1", "5", "twelve"]


def small_yard() -> tuple[Item[Any], ...]:
    """Return two meadows with a common edge, a path through both, a wall, graves and more."""
    graves = [
        new_item(
            kind_of("grave"),
            Rectangle(east=5.0, north=3.0 + 1.8 * n, width=1.22, length=2.74),
            number=f"A {n + 1}",
        )
        for n in range(5)
    ]
    edge = [(20.0, 0.0), (20.4, 6.0), (19.7, 12.0), (20.0, 20.0)]
    west = Polygon([(0.0, 0.0), *edge, (0.0, 20.0)])
    east = Polygon([(40.0, 0.0), (40.0, 20.0), *edge[::-1]])
    holed = Polygon(shapely.box(24, 2, 38, 10).exterior, [shapely.box(28, 4, 32, 8).exterior])
    burial = BurialDetails(grave=graves[0].id)
    stone = Rectangle(east=4.6, north=3.1, width=0.9, length=0.3)
    return (
        new_item(kind_of("grass"), west),
        new_item(kind_of("grass"), east),
        new_item(kind_of("building"), holed),
        new_item(kind_of("zone"), shapely.box(-1, -1, 12, 21), details=ZoneDetails()),
        new_item(
            kind_of("path"),
            LineString([(-2.0, 14.0), (19.0, 15.0), (42.0, 13.0)]),
            details=PathDetails(width_m=1.2),
        ),
        new_item(kind_of("wall"), LineString([(0.0, -2.0), (18.0, -2.0)])),
        new_item(kind_of("wall"), LineString([(18.0, -2.0), (30.0, -2.2)])),
        new_item(kind_of("hedge"), LineString([(44.0, -4.0), (44.0, 8.0), (43.0, 22.0)])),
        new_item(kind_of("tree"), Point(15.0, 17.0)),
        new_item(kind_of("bench"), Point(10.0, 12.0)),
        new_item(kind_of("mark"), Point(1.0, 1.0), number="M1"),
        new_item(kind_of("mark"), Point(39.0, 1.0), number="M2"),
        *graves,
        new_item(kind_of("memorial"), stone, details=MemorialDetails(grave=graves[0].id)),
        new_item(kind_of("burial"), details=burial),
    )


def exactly(items: Iterable[Item[Any]]) -> dict[ItemId, tuple[Any, bytes | None]]:
    """Return items with every bit of their shapes."""
    return {i.id: (i, None if i.shape is None else i.shape.wkb) for i in items}


class AnyToolsInAnyOrder(RuleBasedStateMachine):
    """A session with its file, and what is done in it."""

    def __init__(self) -> None:
        super().__init__()
        self.folder = TemporaryDirectory()
        # ids by turns, so that what went wrong can be played again
        self.patch, count = pytest.MonkeyPatch(), itertools.count(1)
        self.patch.setattr("plan_editor.plan.item.uuid4", lambda: UUID(int=next(count)))
        path = Path(self.folder.name, "yard.gpkg")
        self.file = PlanFile.create(path, name="St Elfric", grid=Grid(crs=LOCAL))
        Document(self.file.plan, journal=self.file).apply(Add(small_yard()))
        self.file.save()
        self.file.close()
        self.file = PlanFile.open(path)
        self.first = exactly(self.file.plan.items.values())
        self.document = Document(self.file.plan, journal=self.file)
        select = next(b for b in BUTTONS if b.name == "select")
        self.session = Session(self.document, first=select, file=self.file)

    # what one may do

    @initialize()
    def begin_with_something(self) -> None:
        self.session.choose(list(self.document.plan.items)[:2])

    @rule(button=st.sampled_from(BUTTONS), kind=st.sampled_from(DRAWN), form=st.integers(0, 3))
    def take_up(self, button: ToolButton, kind: Any, form: int) -> None:
        wanted = kind if button.draws else None
        self.session.take_up(button, wanted, kind.forms[form % len(kind.forms)])

    @rule(data=st.data(), acts=st.lists(st.sampled_from(list(Act)), min_size=1, max_size=3))
    def point(self, data: st.DataObject, acts: list[Act]) -> None:
        for act in acts:
            self.session.point(self._pointer(data, act))
            assert self.session.answer.prompt

    @rule(data=st.data(), count=st.integers(2, 5))
    def click_on(self, data: st.DataObject, count: int) -> None:
        for _ in range(count):
            self.session.point(self._pointer(data, Act.PRESS))
        self.session.point(self._pointer(data, Act.FINISH))

    @rule(data=st.data())
    def drag(self, data: st.DataObject) -> None:
        for act in (Act.PRESS, Act.MOVE, Act.RELEASE):
            self.session.point(self._pointer(data, act))

    @rule(length=st.sampled_from(TYPED), way=st.sampled_from(TYPED), data=st.data())
    def type_how_far(self, length: str, way: str, data: st.DataObject) -> None:
        origin = self.session.answer.origin
        if origin is None:
            return
        toward = self.session.answer.toward or self._place(data)
        try:
            east, north = typed_place(origin, toward, length=length, bearing=way)
        except CannotUse:
            return
        pointer = Pointer(act=Act.PRESS, east=east, north=north, typed=True)
        self.session.point(pointer)

    @rule(data=st.data(), count=st.integers(1, 3))
    def choose(self, data: st.DataObject, count: int) -> None:
        there = list(self.document.plan.items)
        first = data.draw(st.integers(0, len(there) - 1))
        alike = self.document.plan.of(self.document.plan.items[there[first]].kind)
        self.session.choose([there[first], *(i.id for i in alike)][: count + 1])

    @rule()
    def join(self) -> None:
        ids = self.session.chosen
        called = called_on(self.document.plan, ids)
        self.session.try_apply(Join(ids=ids, called=called))

    @rule(tolerance=st.sampled_from([0.01, 0.3, 2.0, 50.0]))
    def simplify(self, tolerance: float) -> None:
        self.session.try_apply(Simplify(ids=self.session.chosen, tolerance=tolerance))

    @rule()
    def undo(self) -> None:
        self.session.cancel()
        self.document.undo()

    @rule()
    def redo(self) -> None:
        self.session.cancel()
        self.document.redo()

    @rule()
    def save(self) -> None:
        self.file.save()

    # what must be true

    @invariant()
    def every_shape_is_whole(self) -> None:
        for item in self.document.plan.items.values():
            if item.shape is not None:
                assert item.shape.is_valid
                assert not item.shape.is_empty
                corners = shapely.get_coordinates(item.shape)
                assert (corners.round(3) == corners).all()
            if item.rectangle is not None:
                assert item.shape == item.rectangle.outline()

    @invariant()
    def the_working_copy_holds_the_plan(self) -> None:
        assert self.file.entries()[-1].number == self.document.plan.revision

    def teardown(self) -> None:
        try:
            self._end()
        finally:
            self.file.close()
            self.folder.cleanup()
            self.patch.undo()

    def _end(self) -> None:
        """Undo all, redo all, save, close and open again."""
        last = exactly(self.document.plan.items.values())
        steps = 0
        while self.document.undo() is not None:
            steps += 1
        assert exactly(self.document.plan.items.values()) == self.first
        for _ in range(steps):
            self.document.redo()
        assert exactly(self.document.plan.items.values()) == last
        self.file.save()
        self.file.close()
        with PlanFile.open(self.file.path) as again:
            assert exactly(again.plan.items.values()) == last
            assert not again.changed_elsewhere

    # where one points

    def _place(self, data: st.DataObject) -> tuple[float, float]:
        """Return a place on something or close to it: a corner, along an edge, within."""
        placed = [i.shape for i in self.document.plan.items.values() if i.shape is not None]
        shape = placed[data.draw(st.integers(0, len(placed) - 1))]
        corners = shapely.get_coordinates(shape)
        east, north = corners[data.draw(st.integers(0, len(corners) - 1))].tolist()
        match data.draw(st.sampled_from(["corner", "edge", "within"])):
            case "edge" if len(corners) > 1:
                edge = shape.boundary if shapely.get_dimensions(shape) == 2 else shape
                at = edge.interpolate(data.draw(st.floats(0.0, 1.0)), normalized=True)
                east, north = at.x, at.y
            case "within":
                at = shape.representative_point()
                east, north = at.x, at.y
            case _:
                pass
        aside = data.draw(st.sampled_from([0.0, 0.0, 0.0, 0.03, -0.4, 3.0]))
        return east + aside, north - aside / 2

    def _pointer(self, data: st.DataObject, act: Act) -> Pointer:
        answer: Answer = self.session.answer
        east, north = self._place(data)
        offers = [o.name for o in answer.offers if o.possible]
        filled = tuple(
            (b.name, data.draw(st.sampled_from(b.choices or TYPED))) for b in answer.blanks
        )
        return Pointer(
            act=act,
            east=east,
            north=north,
            hits=self.session.hits(east, north, 0.4),
            add=data.draw(st.booleans()),
            reach=0.4,
            straight=data.draw(st.booleans()),
            offer=data.draw(st.sampled_from(offers)) if offers else "",
            filled=filled,
        )


TestAnyToolsInAnyOrder = AnyToolsInAnyOrder.TestCase
TestAnyToolsInAnyOrder.settings = settings(
    max_examples=max(20, settings.default.max_examples * 2 // 5), stateful_step_count=30
)


def test_every_declared_tool_is_among_them() -> None:
    assert {b.name for b in BUTTONS} >= {"turn", "split", "cut_out", "to_a_line", "align"}
