"""A whole plan moved to another grid: what lay under what still does; undo takes it back."""

from dataclasses import replace
from math import cos, hypot, radians, sin
from typing import Any

import numpy as np
import pytest
from shapely import LineString, Point, Polygon
from strategies import kind_of, one_of_each

from plan_editor.edits.frame import MoveToGrid
from plan_editor.edits.framing import KnownMark, Scale, framed
from plan_editor.errors import EditRefused
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import base_plan, bench, grave, mark, note, observation, path, tree
from plan_editor.kinds.base_plan import BasePlanDetails
from plan_editor.plan.document import Document
from plan_editor.plan.item import Basis, Item, ItemId, Method, new_item
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.survey.fits.models import Model
from plan_editor.survey.grids.grid import Grid

TURN_DEG = 12.5
"""Plan north lies so far west of grid north: the plan is turned clockwise by it."""

SCALE = 0.999889
"""Scale factor of the British National Grid at the place below; see ``test_grid_facts``."""

AT = (553_112.0, 421_034.0)


def there(east: float, north: float) -> tuple[float, float]:
    """Return where a place of the local plan truly lies, worked out by hand."""
    t = radians(TURN_DEG)
    return (
        AT[0] + SCALE * (east * cos(t) + north * sin(t)),
        AT[1] + SCALE * (north * cos(t) - east * sin(t)),
    )


MARKS = tuple(
    new_item(mark.KIND, Point(e, n), number=f"M{i}", basis=Basis(method=Method.TAPED))
    for i, (e, n) in enumerate([(0, 0), (62, 3), (60, 41), (-4, 45)], 1)
)
GRAVE = new_item(
    grave.KIND,
    Rectangle(east=20.0, north=10.0, width=1.22, length=2.74, bearing_deg=3.0),
    number="C 14",
)


def known(*items: Item[Any], sd: float | None = 0.02) -> tuple[KnownMark, ...]:
    told = []
    for item in items:
        east, north = there(item.shape.x, item.shape.y)
        told.append(
            KnownMark(mark=item.id, east=round(east, 3), north=round(north, 3), sd_m=sd)
        )
    return tuple(told)


GNSS = Basis(method=Method.GNSS, source="marks.csv", date="2025-09-06")
MOVE = MoveToGrid(crs="EPSG:27700", marks=known(*MARKS), basis=GNSS)


def moved(*items: Item[Any], edit: MoveToGrid = MOVE) -> tuple[Plan, Plan]:
    """Return the plan before and after."""
    document = Document(plan_of((*MARKS, *items)))
    before = document.plan
    assert document.apply(edit) is not None
    after = document.plan
    document.undo()
    assert document.plan.items == before.items
    assert document.plan.grid == before.grid
    document.redo()
    assert (document.plan.items, document.plan.grid) == (after.items, after.grid)
    return before, after


def true_place(plan: Plan, east: float, north: float) -> tuple[float, float]:
    return plan.grid.to_crs(east, north)


def test_the_plan_lies_in_the_new_grid_with_its_origin_on_whole_hundreds() -> None:
    _, after = moved(GRAVE)
    assert after.grid == Grid(crs="EPSG:27700", east=553_100.0, north=421_000.0)
    assert MOVE.title == "Move the plan to EPSG:27700 by 4 marks"


def test_the_marks_have_their_coordinates_and_their_basis() -> None:
    _, after = moved()
    for item, told in zip(MARKS, MOVE.marks, strict=True):
        found = after.items[item.id]
        assert found.shape is not None
        assert true_place(after, *found.shape.coords[0]) == pytest.approx(
            (told.east, told.north), abs=1e-9
        )
        assert found.basis == replace(GNSS, sd_m=0.02)


def test_the_scale_of_the_ground_is_held_and_the_turn_found() -> None:
    fit = framed(plan_of(MARKS), "27700", MOVE.marks)
    # the scale factor at the place, as another library has it; see test_grid_facts
    assert fit.held_scale == pytest.approx(SCALE, abs=2e-6)
    assert fit.fit.way.scale == fit.held_scale
    assert fit.fit.own_scale == pytest.approx(SCALE, abs=2e-5)  # marks to the millimetre
    assert fit.fit.way.turn_deg == pytest.approx(TURN_DEG, abs=0.002)
    assert fit.fit.rmse < 0.001


def test_everything_lies_where_it_truly_is() -> None:
    line = new_item(path.KIND, LineString([(5, 5), (55, 38)]))
    _, after = moved(GRAVE, line)
    for item in (GRAVE, line):
        shape = after.items[item.id].shape
        assert shape is not None
        assert item.shape is not None
        was = np.array([there(*c) for c in np.array(_corners(item.shape))])
        now = np.array(_corners(shape)) + np.array((after.grid.east, after.grid.north))
        assert np.abs(was - now).max() < 0.0015


def _corners(shape: Any) -> list[tuple[float, float]]:
    return list(shape.exterior.coords if shape.geom_type == "Polygon" else shape.coords)


def test_a_grave_keeps_its_sides_and_is_turned() -> None:
    _, after = moved(GRAVE)
    found = after.items[GRAVE.id].rectangle
    assert found is not None
    assert (found.width, found.length) == (1.22, 2.74)
    assert found.bearing_deg == pytest.approx(3.0 + TURN_DEG, abs=0.002)


def scan(model: Model, **rest: Any) -> Item[BasePlanDetails]:
    # five pixels to a metre, a little skew, laid askew; y counts down
    fit = (0.2, 0.01, -8.0, 0.012, -0.199, 55.0)
    details = BasePlanDetails(
        name="1962",
        digest="0" * 64,
        extent=(0.0, 0.0, 400.0, 300.0),
        model=model,
        fit=fit,
        **rest,
    )
    shape = Polygon([(-8, 55), (72, 59.8), (75, 0.1), (-5, -4.7)])
    return new_item(base_plan.KIND, shape, details=details)


def _bent_control() -> tuple[float, ...]:
    rows = []
    for x, y in [(20, 20), (380, 30), (200, 150), (30, 280), (370, 270), (120, 90)]:
        east = 0.2 * x + 0.01 * y - 8.0 + 0.3 * sin(x / 90)
        north = 0.012 * x - 0.199 * y + 55.0 + 0.2 * cos(y / 70)
        rows += [float(x), float(y), round(east, 4), round(north, 4)]
    return tuple(rows)


EACH_WAY = {
    Model.AFFINE: {"control": _bent_control()},
    Model.PROJECTIVE: {"bend": (0.2, 0.01, -8.0, 0.012, -0.199, 55.0, 2e-5, -3e-5)},
    Model.WARP: {"control": _bent_control(), "bend": (0.0, 0.0, 0.1, 0.0, 2.0, 0.5)},
}


@pytest.mark.parametrize("model", EACH_WAY)
def test_what_lay_under_a_grave_still_does(model: Model) -> None:
    under = scan(model, **EACH_WAY[model])
    before, after = moved(GRAVE, under)
    was, now = before.items[under.id].details.mapping, after.items[under.id].details.mapping
    assert GRAVE.rectangle is not None
    held = after.items[GRAVE.id].rectangle
    assert held is not None
    paper = was.to_paper(np.array(GRAVE.rectangle.corners()))
    again = now.to_ground(paper)
    # the sides of the grave, which are kept, are 0.3 mm longer than the ground beside them
    assert np.hypot(*(again - np.array(held.corners())).T).max() < 0.001
    exact = [
        np.subtract(there(*p), (after.grid.east, after.grid.north))
        for p in was.to_ground(paper)
    ]
    assert np.abs(np.array(exact) - again).max() < 0.001


def test_what_a_base_plan_was_placed_by_moves_with_it() -> None:
    under = scan(Model.WARP, **EACH_WAY[Model.WARP])
    _, after = moved(under)
    for was, now in zip(
        under.details.control_points,
        after.items[under.id].details.control_points,
        strict=True,
    ):
        assert (now.x, now.y) == (was.x, was.y)
        assert true_place(after, now.east, now.north) == pytest.approx(
            there(was.east, was.north), abs=0.001
        )


def test_a_base_plan_that_was_never_placed_stays_so() -> None:
    unplaced = new_item(base_plan.KIND, details=BasePlanDetails(name="1962"))
    _, after = moved(unplaced)
    assert after.items[unplaced.id] == unplaced


def test_bearings_from_grid_north_are_turned_and_included_angles_are_not() -> None:
    leg = new_item(
        observation.KIND,
        details=observation.ObservationDetails(
            bearing_deg=355.0, angle_deg=90.0, distance_m=30.0
        ),
    )
    tie = new_item(observation.KIND, details=observation.ObservationDetails(distance_m=8.0))
    by_compass = new_item(
        observation.KIND,
        details=observation.ObservationDetails(bearing_deg=20.0, compass=True),
    )
    _, after = moved(leg, tie, by_compass)
    found = after.items[leg.id].details
    assert found.bearing_deg == pytest.approx(355.0 + TURN_DEG - 360.0, abs=0.002)
    assert (found.angle_deg, found.distance_m) == (90.0, 30.0)
    assert after.items[tie.id] == tie
    assert after.items[by_compass.id] == by_compass


def test_what_faces_somewhere_faces_there_in_the_new_grid_too() -> None:
    facing = new_item(bench.KIND, Point(3, 4), details=bench.BenchDetails(facing_deg=350.0))
    open_ = new_item(bench.KIND, Point(5, 4))
    _, after = moved(facing, open_)
    assert after.items[facing.id].details.facing_deg == pytest.approx(2.5, abs=0.002)
    assert after.items[open_.id].details.facing_deg is None


def test_a_note_is_turned_with_the_ground_unless_it_is_level() -> None:
    level = new_item(note.KIND, Point(3, 3))
    along = new_item(note.KIND, Point(3, 4), details=note.NoteDetails(bearing_deg=30.0))
    _, after = moved(level, along)
    assert after.items[level.id].details.bearing_deg == 90.0
    assert after.items[along.id].details.bearing_deg == pytest.approx(42.5, abs=0.002)


def test_a_crown_keeps_its_points_of_the_compass() -> None:
    yew = new_item(
        tree.KIND, Point(9, 9), details=replace(tree.TreeDetails(), crown_north_m=4.0)
    )
    _, after = moved(yew)
    assert after.items[yew.id].details == yew.details


def test_the_marks_may_decide_the_scale() -> None:
    long = tuple(
        replace(
            k, east=AT[0] + (k.east - AT[0]) * 1.004, north=AT[1] + (k.north - AT[1]) * 1.004
        )
        for k in MOVE.marks
    )
    held = framed(plan_of(MARKS), "EPSG:27700", long)
    free = framed(plan_of(MARKS), "EPSG:27700", long, Scale.FREE)
    assert held.fit.way.scale == held.held_scale
    assert free.fit.way.scale == pytest.approx(SCALE * 1.004, abs=2e-5)
    assert free.fit.rmse < 0.001 < held.fit.rmse


def test_a_better_known_mark_weighs_more() -> None:
    astray = replace(MOVE.marks[2], east=MOVE.marks[2].east + 0.2)
    alike = framed(plan_of(MARKS), "27700", (*MOVE.marks[:2], astray, MOVE.marks[3]))
    doubted = (*MOVE.marks[:2], replace(astray, sd_m=1.0), MOVE.marks[3])
    weighed = framed(plan_of(MARKS), "27700", doubted)
    assert weighed.fit.off[2] > alike.fit.off[2]
    assert max(weighed.fit.off[:2]) < max(alike.fit.off[:2])


def test_a_plan_goes_there_and_back() -> None:
    document = Document(plan_of((*MARKS, GRAVE)))
    document.apply(MOVE)
    back = tuple(
        KnownMark(mark=i.id, east=i.shape.x, north=i.shape.y)
        for i in MARKS
        if isinstance(i.shape, Point)
    )
    document.apply(MoveToGrid(crs="local", marks=back))
    assert document.plan.grid == Grid(crs="local", east=-100.0, north=0.0)
    found = document.plan.items[GRAVE.id].rectangle
    assert found is not None
    assert GRAVE.rectangle is not None
    now = document.plan.grid.to_crs(found.east, found.north)
    assert hypot(now[0] - GRAVE.rectangle.east, now[1] - GRAVE.rectangle.north) < 0.001


def test_a_shift_of_the_origin_alone_is_an_edit() -> None:
    # from one origin to another in the same system: nothing turns, and rows say the same
    plan = plan_of(MARKS, grid=Grid(crs="local", east=0.0, north=0.0))
    document = Document(plan)
    same = tuple(
        KnownMark(mark=i.id, east=i.shape.x + 700, north=i.shape.y + 300)
        for i in MARKS
        if isinstance(i.shape, Point)
    )
    entry = document.apply(MoveToGrid(crs="local", marks=same))
    assert entry is not None
    assert entry.moves_grid
    document.undo()
    assert (document.plan.items, document.plan.grid) == (plan.items, plan.grid)


def test_everything_of_every_kind_goes_along() -> None:
    plan = one_of_each()
    first, second = plan.of(kind_of("mark"))
    edit = MoveToGrid(crs="EPSG:27700", marks=known(first, second))
    changes = {c.id: c for c in edit.changes(plan)}
    assert all(
        changes[i.id].before != changes[i.id].after
        for i in plan.items.values()
        if i.shape is not None
    )


@pytest.mark.parametrize(
    ("crs", "marks", "because"),
    [
        ("EPSG:4326", MOVE.marks, "not a flat grid"),
        ("nowhere", MOVE.marks, "names no coordinate system"),
        ("27700", (), "none were given"),
        ("27700", MOVE.marks[:1], "only one was given"),
        ("27700", (MOVE.marks[0], MOVE.marks[0]), "given twice"),
        ("27700", (*MOVE.marks[:2], replace(MOVE.marks[2], mark=GRAVE.id)), "no mark"),
        (
            "27700",
            (*MOVE.marks[:2], replace(MOVE.marks[2], mark=ItemId("f" * 32))),
            "no longer",
        ),
        ("27700", (MOVE.marks[0], replace(MOVE.marks[1], east=float("nan"))), "no place of"),
        ("27700", (MOVE.marks[0], replace(MOVE.marks[1], north=1e9)), "no place of any grid"),
        ("27700", (MOVE.marks[0], replace(MOVE.marks[1], sd_m=-1.0)), "is no length"),
        ("27700", (*MOVE.marks[:3], replace(MOVE.marks[3], east=653_112.0)), "M4 is not where"),
        (
            "27700",
            tuple(replace(k, east=k.north, north=k.east) for k in MOVE.marks),
            "only if the plan is mirrored",
        ),
        (
            "2157",
            tuple(replace(k, east=k.east + 2e6) for k in MOVE.marks),
            "outside of what EPSG:2157 is made for",
        ),
        (
            "27700",
            tuple(replace(k, east=k.east * 90, north=k.north * 90) for k in MOVE.marks),
            "has no meaning",
        ),
    ],
)
def test_marks_that_carry_no_plan_are_refused_in_a_sentence(
    crs: str, marks: tuple[KnownMark, ...], because: str
) -> None:
    document = Document(plan_of((*MARKS, GRAVE)))
    before = document.plan
    with pytest.raises(EditRefused, match=because) as refused:
        document.apply(MoveToGrid(crs=crs, marks=marks))
    assert "othing was changed" in str(refused.value)
    assert document.plan is before


def test_what_would_lie_too_far_off_is_named() -> None:
    far = new_item(mark.KIND, Point(99_000, 99_000), number="M9")
    near = tuple(replace(i, shape=Point(i.shape.x, i.shape.y)) for i in MARKS)
    marks = tuple(replace(k, east=k.east + 40.0, north=k.north + 80.0) for k in known(*near))
    with pytest.raises(EditRefused, match="Mark M9 cannot lie there: a corner lies more than"):
        Document(plan_of((*near, far))).apply(MoveToGrid(crs="27700", marks=marks))
