"""The sample tells its story: so many graves, trees and unsafe stones, none absurdly placed."""

from collections import Counter
from collections.abc import Callable
from math import hypot

import numpy as np
import pyproj
import pytest
import shapely
from build import edits
from burial_register import CLAIMS, FAULTS, written
from burial_register import FILE as REGISTER
from field_books import NAILS, ties_file
from story import TODAY, id_of
from whole import OLD_PLAN, steps_of_the_work

from plan_editor.commands.field_books import outcome
from plan_editor.commands.register_files import look_at_register, ready_register
from plan_editor.exchange.field_books import read_field_book
from plan_editor.ground.field_books import books
from plan_editor.kinds import (
    ashes_plot,
    base_plan,
    boundary,
    building,
    burial,
    grass,
    grave,
    inspection,
    mark,
    memorial,
    path,
    tree,
    wall,
    zone,
)
from plan_editor.kinds.grass import Regime
from plan_editor.kinds.grave import State
from plan_editor.kinds.inspection import Result
from plan_editor.kinds.memorial import MemorialForm
from plan_editor.kinds.zone import ZoneSort
from plan_editor.plan.document import Document
from plan_editor.plan.item import Method
from plan_editor.plan.kind import Kind
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.records.safety import standings
from plan_editor.records.work_list import Sort, work_list
from plan_editor.resources import sample
from plan_editor.storage.loading import read_plan
from plan_editor.survey.adjustment.observed import Standing

Shapes = np.ndarray


@pytest.fixture(scope="module")
def plan() -> Plan:
    return read_plan(sample("harrowmere.gpkg"))


@pytest.fixture(scope="module")
def shapes(plan: Plan) -> Callable[[Kind], Shapes]:
    return lambda kind: np.array([item.shape for item in plan.of(kind)], dtype=object)


def test_the_shipped_plan_is_what_the_builder_makes(plan: Plan) -> None:
    made = {item.id: item for step in steps_of_the_work() for item in step}
    shipped = {key: item for key, item in plan.items.items() if key in made}
    assert shipped == made


def test_the_builders_edits_are_taken_by_an_empty_plan(plan: Plan) -> None:
    base = plan.items[OLD_PLAN]
    document = Document(plan_of((), name=plan.name, grid=plan.grid))
    for edit in edits(base.details.digest):
        document.apply(edit)
    assert dict(document.plan.items) == dict(plan.items)


def test_the_first_field_book_is_on_the_plan_with_its_nails(plan: Plan) -> None:
    assert list(books(plan)) == ["Field book 2025"]
    nails = {m.number: m for m in plan.of(mark.KIND) if not m.details.permanent}
    assert set(nails) == set(NAILS)
    for number, (east, north) in NAILS.items():
        off = shapely.distance(nails[number].shape, shapely.Point(east, north))
        assert off < 3.0 * hypot(2.0**0.5 * nails[number].basis.sd_m, 0.001)


def test_the_second_field_book_waits_with_a_blunder_and_a_weak_point(plan: Plan) -> None:
    path = sample("harrowmere-ties.csv")
    assert path.read_bytes() == ties_file()
    told = outcome(plan, read_field_book(path))
    (suspect,) = told.suspects
    line = suspect.reading.line
    assert (line.start, line.point) == ("M4", "Q1")
    assert [p.name for p in told.points if p.standing is Standing.WEAK] == ["Q3"]
    weak = next(a for a in told.advice if a.point == "Q3")
    assert weak.before is not None
    assert weak.after is not None
    assert weak.after < weak.before / 5.0


def test_it_has_as_many_graves_and_trees_as_a_real_churchyard_of_its_size(plan: Plan) -> None:
    assert 430 <= plan.count(grave.KIND) <= 470
    assert plan.count(tree.KIND) == 30
    assert sum(t.details.veteran for t in plan.of(tree.KIND)) == 2
    assert plan.count(ashes_plot.KIND) == 24


def test_its_rows_have_letters_without_i_and_o(plan: Plan) -> None:
    letters = {item.number.split()[0] for item in plan.of(grave.KIND)}
    assert letters == set("ABCDEFGHJKLMNPQRSTUVWXYZ")


def test_the_graves_of_a_row_are_numbered_without_a_gap(plan: Plan) -> None:
    rows: dict[str, list[int]] = {}
    for item in plan.of(grave.KIND):
        letter, n = item.number.split()
        rows.setdefault(letter, []).append(int(n))
    assert all(numbers == list(range(1, len(numbers) + 1)) for numbers in rows.values())


def test_there_is_room_in_the_last_row_only(plan: Plan) -> None:
    states = Counter(item.details.state for item in plan.of(grave.KIND))
    assert states[State.RESERVED] == 4
    assert states[State.CLOSED] == 2
    assert states[State.FREE] >= 10
    free = {i.number[0] for i in plan.of(grave.KIND) if i.details.state is State.FREE}
    assert free == {"Z"}


def test_nine_memorials_are_unsafe_on_the_day_of_the_story(plan: Plan) -> None:
    unsafe = [s.item for s in standings(plan, on=TODAY) if s.unsafe]
    stones = [item for item in unsafe if item.kind == memorial.KIND]
    assert len(stones) == 9
    assert sum(stone.details.height_m is None for stone in stones) == 1
    assert [item.number for item in unsafe if item not in stones] == ["T29"]


def test_one_memorial_failed_and_passed_two_years_later(plan: Plan) -> None:
    mended = [
        s.item.number
        for s in standings(plan)
        if [i.details.result for i in s.inspections] == [Result.SOUND, Result.IMMEDIATE]
    ]
    assert mended == ["F 7"]


def test_about_150_memorials_were_inspected_in_the_spring(plan: Plan) -> None:
    spring = [i for i in plan.of(inspection.KIND) if i.details.date.startswith("2026-03")]
    assert 140 <= len(spring) <= 160
    assert len({i.details.target for i in spring}) == len(spring)


def test_seven_of_ten_used_graves_have_a_memorial(plan: Plan) -> None:
    used = [
        i for i in plan.of(grave.KIND) if i.details.state in (State.OCCUPIED, State.UNKNOWN)
    ]
    assert 0.65 <= plan.count(memorial.KIND) / len(used) <= 0.78


def test_its_memorials_are_of_many_forms(plan: Plan) -> None:
    forms = Counter(item.details.form for item in plan.of(memorial.KIND))
    assert set(forms) >= {
        MemorialForm.HEADSTONE,
        MemorialForm.CROSS,
        MemorialForm.LEDGER,
        MemorialForm.KERB,
        MemorialForm.CHEST_TOMB,
        MemorialForm.OBELISK,
    }
    assert sum(item.details.war_grave for item in plan.of(memorial.KIND)) == 2


def test_the_meadows_rest_until_their_days(plan: Plan) -> None:
    until = {i.details.regime: i.details.uncut_until for i in plan.of(grass.KIND)}
    assert until[Regime.SUMMER] == "2026-07-20"
    assert until[Regime.SPRING] == "2026-06-10"


def test_everything_lies_within_the_boundary(plan: Plan) -> None:
    (ring,) = (item.shape for item in plan.of(boundary.KIND))
    outside = [
        item.called()
        for item in plan.items.values()
        if item.shape is not None
        and item.kind != base_plan.KIND
        and not ring.buffer(0.3).covers(item.shape)
    ]
    assert outside == []
    assert 6_000 <= ring.area <= 8_000


def test_no_two_graves_overlap(shapes: Callable[[Kind], Shapes]) -> None:
    outlines = shapes(grave.KIND)
    one, other = shapely.STRtree(outlines).query(outlines, predicate="intersects")
    assert (one == other).all()


def test_graves_keep_clear_of_walls_paths_buildings_and_stems(
    plan: Plan, shapes: Callable[[Kind], Shapes]
) -> None:
    outlines = shapes(grave.KIND)
    for kind in (wall.KIND, path.KIND):
        for item in plan.of(kind):
            clear = shapely.distance(outlines, item.shape) - kind.width_m(item.details) / 2
            assert clear.min() > 0.3, item.called()
    for item in plan.of(building.KIND):
        assert shapely.distance(outlines, item.shape).min() > 0.5
    for item in plan.of(tree.KIND):
        clear = shapely.distance(outlines, item.shape) - max(item.details.stems_mm) / 2000
        assert clear.min() > 0.6, item.called()


def test_a_memorial_stands_on_its_grave(plan: Plan) -> None:
    for stone in plan.of(memorial.KIND):
        under = plan.items[stone.details.grave]
        assert under.shape.buffer(0.01).covers(stone.shape), stone.number


def test_no_grass_is_counted_twice(shapes: Callable[[Kind], Shapes]) -> None:
    pieces = shapes(grass.KIND)
    whole = shapely.union_all(pieces).area
    # outlines are simplified to a centimetre, so that neighbours share a sliver at most
    assert shapely.area(pieces).sum() == pytest.approx(whole, abs=1.5)


def test_one_piece_of_grass_has_a_hole(shapes: Callable[[Kind], Shapes]) -> None:
    assert shapely.get_num_interior_rings(shapes(grass.KIND)).max() == 1


def test_the_ashes_plots_lie_in_their_zone(
    plan: Plan, shapes: Callable[[Kind], Shapes]
) -> None:
    (area,) = (i.shape for i in plan.of(zone.KIND) if i.details.sort is ZoneSort.ASHES)
    assert shapely.covers(area, shapes(ashes_plot.KIND)).all()


def test_the_south_wall_is_forty_metres_long_to_the_lychgate(plan: Plan) -> None:
    lengths = [item.shape.length for item in plan.of(wall.KIND)]
    assert min(abs(length - 40.0) for length in lengths) < 0.001


def test_every_item_on_the_ground_says_how_its_place_is_known(plan: Plan) -> None:
    silent = [
        item.called()
        for item in plan.items.values()
        if item.shape is not None
        and item.kind != base_plan.KIND
        and (not item.basis.source or item.basis.sd_m is None)
    ]
    assert silent == []
    traced = [i for i in plan.items.values() if i.basis.method is Method.TRACED]
    assert {i.basis.base_plan for i in traced} == {OLD_PLAN}


def test_it_lies_in_the_sea_off_lincolnshire(plan: Plan) -> None:
    # 53.663 N 0.316 E by OSTN15; the seven-parameter way without the grid is good to 5 m
    to_degrees = pyproj.Transformer.from_crs(plan.grid.crs, "EPSG:4326", always_xy=True)
    east, north = to_degrees.transform(*plan.grid.to_crs(48.0, 38.0))
    assert hypot(east - 0.3167, north - 53.663) < 0.002


def test_every_fault_of_the_register_is_told_and_none_is_invented(plan: Plan) -> None:
    looked = look_at_register(sample(REGISTER))
    told = ready_register(plan_of(()), looked, on=TODAY)
    rows = {w.buried: n for n, w in enumerate(written(), 2)}
    dates = {rows[date] for date in FAULTS.values()}
    unnumbered = {n for n, w in enumerate(written(), 2) if not w.number}
    assert {d.row for d in told.doubtful if d.column == "When buried"} == dates
    assert {d.row for d in told.doubtful if d.column == "No."} == unnumbered
    assert len(told.doubtful) == len(dates) + len(unnumbered)
    assert told.rejected == ()


def test_the_register_once_more_changes_nothing(plan: Plan) -> None:
    told = ready_register(plan, look_at_register(sample(REGISTER)), on=TODAY)
    assert (told.read, told.new, told.updated) == (len(written()), 0, 0)
    assert told.edit is None


def test_what_cannot_be_as_the_register_has_it_is_on_the_work_list(plan: Plan) -> None:
    wrong = {Sort.CROWDED, Sort.KEPT_BACK, Sort.IN_FREE}
    tasks = [t for t in work_list(plan) if t.sort in wrong]
    graves = {plan.items[i].number for t in tasks for i in t.items}
    assert sorted(t.sort for t in tasks) == sorted(wrong)
    assert {where for *_, where in CLAIMS} <= graves


def test_nearly_every_entry_lies_where_it_truly_does(plan: Plan) -> None:
    truly = {
        str(n): w.truth.space.number for n, w in enumerate(written(), 2) if w.truth is not None
    }
    ids = {id_of(burial.KIND, row): number for row, number in truly.items()}
    lying = [b for b in plan.of(burial.KIND) if b.details.grave and b.id in ids]
    right = [b for b in lying if plan.items[b.details.grave].number == ids[b.id]]
    assert len(lying) > 300
    assert len(right) / len(lying) >= 0.98
