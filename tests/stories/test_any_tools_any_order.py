"""Any tools in any order, over a real file: always valid, always undoable, always saved.

A hand that knows nothing takes up whatever tool there is, clicks near corners and edges of real
things and now and then nowhere, drags, types lengths and blanks, takes up what is offered, goes
back and gives up. Nothing here is written for one tool: a new file in ``drafting/tools`` is
tried at once. Long under ``HYPOTHESIS_PROFILE=thorough``.
"""

import os
from pathlib import Path
from random import Random

import pytest
import shapely
from shapely import LineString, Point, Polygon

from plan_editor.commands.drawing import drawn_kinds, forms_of
from plan_editor.drafting.tool import Act, Pointer, tools
from plan_editor.edits.basic import Add
from plan_editor.edits.places import Turn
from plan_editor.geometry.outlines import Rectangle
from plan_editor.geometry.ranks import Axis, at_pitch
from plan_editor.kinds import boundary, building, grass, grave, mark, path, tree, wall
from plan_editor.plan.document import Document
from plan_editor.plan.item import Item, ItemId, new_item
from plan_editor.plan.plan import Plan
from plan_editor.session import Session
from plan_editor.storage.plan_file import PlanFile
from plan_editor.survey.grids.grid import Grid

THOROUGH = os.environ.get("HYPOTHESIS_PROFILE") == "thorough"
SEEDS = range(200) if THOROUGH else range(10)
STEPS = 3_000 if THOROUGH else 1_000

TYPED = (
    "",
    "2",
    "0",
    "-3",
    "9' 4½\"",
    "1.5",
    "45",
    "NE",
    "many",
    "M 1",
    "A 3",
    "1e9",
    "½",
    "∞",
)
ACTS = (
    *[Act.PRESS] * 8,
    *[Act.MOVE] * 5,
    *[Act.RELEASE] * 4,
    *[Act.FINISH] * 3,
    *[Act.TAKE] * 3,
    *[Act.FILL] * 2,
    Act.BACK,
    Act.CANCEL,
)


def yard() -> tuple[Item, ...]:
    """Return a small churchyard in which everything touches something."""
    row = at_pitch(Axis(start=(4.0, 4.0), bearing_deg=3.0), (1.2, 2.4), 5, 1.4, right=True)
    graves = [new_item(grave.KIND, r, number=f"A {n}") for n, r in enumerate(row, 1)]
    ring = [(0, 0), (40, 0), (42, 30), (-2, 31)]
    church = Polygon([(20, 15), (32, 15), (32, 24), (20, 24)], [[(24, 18), (26, 18), (26, 20)]])
    return (
        new_item(boundary.KIND, Polygon(ring)),
        new_item(building.KIND, church),
        new_item(wall.KIND, LineString(ring)),
        new_item(path.KIND, LineString([(-2, 14), (10, 12), (20, 18)])),
        new_item(grass.KIND, Polygon([(0, 0), (20, 0), (20, 15), (0, 15)])),
        new_item(grass.KIND, Polygon([(20, 0), (40, 0), (40, 15), (20, 15)])),
        new_item(tree.KIND, Point(35, 27)),
        new_item(mark.KIND, Point(0, 0), number="M 1"),
        new_item(mark.KIND, Point(40, 0), number="M 2"),
        *graves,
    )


class Hand:
    """Somebody who tries everything."""

    def __init__(self, session: Session, random: Random) -> None:
        self.session = session
        self.random = random
        self.at = (0.0, 0.0)

    @property
    def plan(self) -> Plan:
        return self.session.document.plan

    def step(self) -> None:
        """Do one thing."""
        chance = self.random.random()
        if chance < 0.06:
            self._take_up()
        elif chance < 0.10:
            self.session.choose(self.random.sample(tuple(self.plan.items), 1))
        elif chance < 0.13:
            self.session.document.undo()
        elif chance < 0.15:
            self.session.document.redo()
        else:
            self._point()

    def _take_up(self) -> None:
        button = self.random.choice(tools())
        if button.draws:
            kind = self.random.choice(drawn_kinds())
            self.session.take_up(button, kind, self.random.choice(forms_of(kind)))
        else:
            self.session.take_up(button)

    def _point(self) -> None:
        act = self.random.choice(ACTS)
        self.at = self._place()
        answer = self.session.answer
        possible = [o.name for o in answer.offers if o.possible]
        if act is Act.TAKE and not possible:
            act = Act.MOVE
        filled = tuple(
            (b.name, self.random.choice((*b.choices, *TYPED, b.text))) for b in answer.blanks
        )
        self.session.point(
            Pointer(
                act=act,
                east=self.at[0],
                north=self.at[1],
                hits=self.session.hits(*self.at, 0.4),
                add=self.random.random() < 0.1,
                reach=0.4,
                typed=act is Act.PRESS and self.random.random() < 0.1,
                straight=self.random.random() < 0.1,
                offer=self.random.choice(possible) if act is Act.TAKE else "",
                filled=filled if act is Act.FILL else (),
            )
        )

    def _place(self) -> tuple[float, float]:
        """Return where the pointer goes: mostly on something, sometimes where it was."""
        chance = self.random.random()
        if chance < 0.15:
            return self.at
        if chance < 0.35:
            return self.random.uniform(-5, 45), self.random.uniform(-5, 35)
        shapes = [i.shape for i in self.plan.items.values() if i.shape is not None]
        shape = self.random.choice(shapes)
        if chance < 0.7:
            corners = shapely.get_coordinates(shape)
            east, north = corners[self.random.randrange(len(corners))].tolist()
            return east, north
        if shape.geom_type == "Point":
            return shape.x, shape.y
        edge = shape.boundary if shape.geom_type.endswith("Polygon") else shape
        at = shapely.line_interpolate_point(edge, self.random.random(), normalized=True)
        return at.x, at.y


def _opened(path_: Path) -> tuple[PlanFile, Session]:
    file = PlanFile.open(path_)
    document = Document(file.plan, journal=file, author="test")
    first = next(t for t in tools() if t.name == "select")
    return file, Session(document, first=first, file=file)


@pytest.mark.parametrize("seed", SEEDS)
def test_any_tools_in_any_order_leave_a_plan_that_is_valid_undoable_and_saved(
    tmp_path: Path, seed: int
) -> None:
    grid = Grid(crs="EPSG:27700", east=553_100.0, north=421_000.0)
    where = tmp_path / "yard.gpkg"
    with PlanFile.create(where, name="St Elfric", grid=grid) as begun:
        Document(begun.plan, journal=begun).apply(Add(yard()))
        begun.save()
    file, session = _opened(where)
    first, made = dict(file.plan.items), 0
    hand = Hand(session, Random(seed))  # noqa: S311  # a hand, not a secret
    for _ in range(STEPS):
        before = session.document.plan
        hand.step()
        if session.document.plan is not before:
            made += 1
            _valid(before, session.document.plan)
    file.save()
    last = dict(session.document.plan.items)
    steps = 0
    while session.document.undo() is not None:
        steps += 1
    assert dict(session.document.plan.items) == first
    for _ in range(steps):
        session.document.redo()
    assert dict(session.document.plan.items) == last
    file.close()
    again, _ = _opened(where)
    assert dict(again.plan.items) == last
    again.close()
    assert made > STEPS / 40  # the hand did something


def _valid(before: Plan, after: Plan) -> None:
    changed = [i for n, i in after.items.items() if before.items.get(n) is not i]
    shapes = [i.shape for i in changed if i.shape is not None]
    assert shapely.is_valid(shapes).all()
    assert not shapely.is_empty(shapes).any()
    for item in changed:
        assert item.rectangle is None or item.shape == item.rectangle.outline()


def test_three_hundred_and_sixty_turns_of_a_degree_bring_a_grave_back_exactly() -> None:
    place = Rectangle(east=3.217, north=-8.45, width=1.219, length=2.743, bearing_deg=17.3)
    item = new_item(grave.KIND, place)
    document = Document(Plan())
    document.apply(Add((item,)))
    for _ in range(360):
        document.apply(Turn(ids=(item.id,), degrees=1.0, about=(10.0, 4.0)))
    after = document.plan.items[item.id]
    assert after.shape == item.shape
    assert after.rectangle is not None
    assert after.rectangle.bearing_deg == pytest.approx(17.3, abs=1e-9)


def test_three_hundred_and_sixty_turns_bring_an_outline_back_to_some_millimetres() -> None:
    # its corners are kept in whole millimetres, so each turn may shift one by 0.7 mm
    item = new_item(grass.KIND, Polygon([(0, 0), (20, 0), (20, 15), (3, 11)]))
    document = Document(Plan())
    document.apply(Add((item,)))
    for _ in range(360):
        document.apply(Turn(ids=(item.id,), degrees=1.0, about=(10.0, 4.0)))
    shape = document.plan.items[ItemId(item.id)].shape
    assert shape is not None
    away = shapely.get_coordinates(shape) - shapely.get_coordinates(item.shape)
    assert abs(away).max() < 0.03
