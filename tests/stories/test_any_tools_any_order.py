"""Whatever tools are taken up in whatever order: always valid, undone whole, saved as it is.

A person at a small churchyard, played by chance with a seed: takes up any declared tool, points
at things and beside them, takes up what is offered, types lengths and what is asked for, joins,
thins, undoes, and saves now and then. Underneath is a real plan file.
"""

import itertools
from collections.abc import Iterable
from pathlib import Path
from random import Random
from typing import Any
from uuid import UUID

import pytest
import shapely
from hypothesis import settings
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
SEEDS = range(1, 16) if settings.default.max_examples <= 50 else range(1, 401)
STEPS = 120

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


class Someone:
    """Who works on a plan in its file, with a die."""

    def __init__(self, path: Path, seed: int) -> None:
        self.die = Random(seed)  # noqa: S311  # nothing secret hangs on it
        with PlanFile.create(path, name="St Elfric", grid=Grid(crs=LOCAL)) as new:
            Document(new.plan, journal=new).apply(Add(small_yard()))
            new.save()
        self.file = PlanFile.open(path)
        self.document = Document(self.file.plan, journal=self.file)
        self.first = exactly(self.document.plan.items.values())
        select = next(b for b in BUTTONS if b.name == "select")
        self.session = Session(self.document, first=select, file=self.file)

    def does_something(self) -> None:
        """Do one thing or another; using a tool most of all."""
        deeds = (self.uses, self.fumbles, self.joins, self.thins, self.undoes, self.redoes)
        deed = self.die.choices(deeds, weights=(60, 12, 8, 8, 7, 5))[0]
        deed()

    def uses(self) -> None:
        """Choose something, take up a tool, click about, perhaps type, and finish."""
        if self.die.random() < 0.7:
            self._chooses()
        self._takes_up(self.die.choice(BUTTONS))
        if self.die.random() < 0.4:
            self._point(Act.TAKE)
        for _ in range(self.die.randint(1, 4)):
            self._point(Act.MOVE)
            self._point(Act.PRESS)
            if self.die.random() < 0.25:
                self._types()
        last = self.die.choice((Act.FINISH, Act.RELEASE, Act.FILL, Act.TAKE, Act.BACK))
        self._point(last)

    def fumbles(self) -> None:
        """Do anything at all with the tool in hand."""
        for _ in range(self.die.randint(1, 5)):
            self._point(self.die.choice(list(Act)))

    def joins(self) -> None:
        """Join something with its neighbours of one kind."""
        plan = self.document.plan
        first = self.die.choice(list(plan.items.values()))
        alike = [i for i in plan.of(first.kind) if i.shape is not None and first.shape]
        near = sorted(alike, key=lambda i: (i.shape.distance(first.shape), i.id))
        ids = tuple(i.id for i in near[: self.die.randint(2, 3)])
        self.session.try_apply(Join(ids=ids, called=called_on(plan, ids)))

    def thins(self) -> None:
        """Leave out corners of something."""
        self._chooses()
        tolerance = self.die.choice((0.01, 0.3, 2.0, 50.0))
        self.session.try_apply(Simplify(ids=self.session.chosen, tolerance=tolerance))

    def undoes(self) -> None:
        """Undo a few steps."""
        self.session.cancel()
        for _ in range(self.die.randint(1, 3)):
            self.document.undo()

    def redoes(self) -> None:
        """Redo a few steps."""
        self.session.cancel()
        for _ in range(self.die.randint(1, 4)):
            self.document.redo()

    def looks(self) -> None:
        """Check that every shape is whole."""
        for item in self.document.plan.items.values():
            if item.rectangle is not None:
                assert item.shape == item.rectangle.outline()
            if item.shape is not None:
                assert item.shape.is_valid, item
                assert not item.shape.is_empty, item
                corners = shapely.get_coordinates(item.shape)
                assert (corners.round(3) == corners).all(), item

    def goes_home(self) -> None:
        """Undo all, redo all, save, close, open again: each time it is what it was."""
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

    def _chooses(self) -> None:
        plan = self.document.plan
        first = self.die.choice(list(plan.items.values()))
        alike = [i.id for i in plan.of(first.kind)]
        self.session.choose([first.id, *alike[: self.die.choice((0, 0, 1, 3))]])

    def _takes_up(self, button: ToolButton) -> None:
        kind = self.die.choice(DRAWN) if button.draws else None
        form = None if kind is None else self.die.choice(kind.forms)
        self.session.take_up(button, kind, form)

    def _types(self) -> None:
        origin = self.session.answer.origin
        if origin is None:
            return
        toward = self.session.answer.toward or self._place()
        length, way = self.die.choice(TYPED), self.die.choice(TYPED)
        try:
            east, north = typed_place(origin, toward, length=length, bearing=way)
        except CannotUse:
            return
        self.session.point(Pointer(act=Act.PRESS, east=east, north=north, typed=True))

    def _point(self, act: Act) -> None:
        self.session.point(self._pointer(act))
        assert self.session.answer.prompt

    def _place(self) -> tuple[float, float]:
        """Return a place on something or close to it: a corner, between two, within."""
        chosen = [self.document.plan.items[i] for i in self.session.chosen]
        among = chosen if self.die.random() < 0.4 else self.document.plan.items.values()
        placed = [i.shape for i in among if i.shape is not None] or [Point(0, 0)]
        shape = self.die.choice(placed)
        corners = shapely.get_coordinates(shape)
        here, there = self.die.choice(corners.tolist()), self.die.choice(corners.tolist())
        between = (here[0] + there[0]) / 2, (here[1] + there[1]) / 2
        within = shape.representative_point()
        east, north = self.die.choice((here, between, (within.x, within.y)))
        aside = self.die.choice((0.0, 0.0, 0.0, 0.0, 0.03, -0.4, 3.0))
        return east + aside, north - aside / 2

    def _pointer(self, act: Act) -> Pointer:
        answer: Answer = self.session.answer
        east, north = self._place()
        offers = [o.name for o in answer.offers if o.possible]
        filled = ((b.name, self.die.choice(b.choices or TYPED)) for b in answer.blanks)
        return Pointer(
            act=act,
            east=east,
            north=north,
            hits=self.session.hits(east, north, 0.4),
            add=self.die.random() < 0.2,
            reach=0.4,
            straight=self.die.random() < 0.3,
            offer=self.die.choice(offers) if offers else "",
            filled=tuple(filled),
        )


@pytest.mark.parametrize("seed", SEEDS)
def test_any_tools_in_any_order(
    seed: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    count = itertools.count(1)
    # ids by turns, so that what went wrong can be played again
    monkeypatch.setattr("plan_editor.plan.item.uuid4", lambda: UUID(int=next(count)))
    someone = Someone(tmp_path / "yard.gpkg", seed)
    for step in range(STEPS):
        someone.does_something()
        someone.looks()
        if step % 25 == 0:
            someone.file.save()
    assert len(someone.file.entries()) > STEPS / 8, "hardly anything was done"
    someone.goes_home()
