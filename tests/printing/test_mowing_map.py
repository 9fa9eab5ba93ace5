"""What a volunteer finds his way by on the mowing map, and how large it is written."""

from collections.abc import Iterable, Iterator

import pytest
from shapely import LineString, Point, box

from plan_editor.drawing.ink import Clipped, Fill, Ink, Text
from plan_editor.drawing.lettering import CAPITAL
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import (
    boundary,
    building,
    gate,
    grave,
    inspection,
    memorial,
    path,
    tree,
    wall,
)
from plan_editor.plan.item import Item, new_item
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.printing.sheet import Asked, Paper, Sheet, Supplied, sheets
from plan_editor.printing.sheets import mowing
from plan_editor.printing.sheets.mowing.told import extent_told, told_by
from plan_editor.resources import sample
from plan_editor.storage.loading import read_plan

OF_THE_GROUND = [s for s in sheets() if not s.about]
DAY = "2026-06-01"


def every(ink: Iterable[Ink]) -> Iterator[Ink]:
    for piece in ink:
        if isinstance(piece, Clipped):
            yield from every(piece.ink)
        else:
            yield piece


def written(plan: Plan, sheet: Sheet = mowing.SHEET, paper: Paper | None = None) -> list[Text]:
    made = sheet.compose(plan, Asked(date=DAY, paper=paper), Supplied())
    return [t for page in made.pages for t in every(page.ink) if isinstance(t, Text)]


def tree_at(east: float, species: str, **details: object) -> Item:
    told = tree.TreeDetails(species=species, **details)
    return new_item(tree.KIND, Point(east, 40), details=told)


def churchyard(*more: Item) -> Plan:
    rows = [
        new_item(
            grave.KIND,
            Rectangle(east=4 + 3.0 * row, north=3 + 1.3 * n, width=1, length=2.2),
            number=f"{'ABC'[row]} {n + 1}",
        )
        for row in range(3)
        for n in range(9)
    ]
    stone = new_item(
        memorial.KIND,
        Rectangle(east=10.1, north=5.7, width=0.8, length=0.2),
        number="C 3",
        details=memorial.MemorialDetails(height_m=1.2),
    )
    failed = inspection.InspectionDetails(
        target=stone.id, date="2026-04-02", result=inspection.Result.IMMEDIATE
    )
    return plan_of(
        [
            new_item(
                boundary.KIND,
                box(0, 0, 60, 50),
                details=boundary.BoundaryDetails(name="The whole churchyard"),
            ),
            new_item(
                building.KIND,
                box(25, 15, 45, 25),
                details=building.BuildingDetails(name="St Ŵyne"),
            ),
            new_item(
                gate.KIND, LineString([(30, 0), (32, 0)]), details=gate.GateDetails(name="Gate")
            ),
            new_item(
                path.KIND,
                LineString([(31, 0), (31, 15)]),
                details=path.PathDetails(name="South path"),
            ),
            tree_at(10, "yew", veteran=True),
            tree_at(30, "beech", crown_north_m=7.0),
            tree_at(45, "holly", crown_north_m=1.5),
            *rows,
            stone,
            new_item(inspection.KIND, details=failed),
            *more,
        ],
        name="St Ŵyne, Ashby Parva",
    )


def test_buildings_gates_paths_and_great_trees_bear_their_names() -> None:
    told = {t.text for t in written(churchyard())}
    assert {"St Ŵyne", "Gate", "South path", "Yew", "Beech"} <= told
    assert "Holly" not in told
    assert "The whole churchyard" not in told


def test_rows_are_told_by_the_numbers_at_their_ends() -> None:
    told = [t.text for t in written(churchyard())]
    assert {"A 1", "A 9", "B 1", "B 9", "C 1", "C 9"} <= set(told)
    assert "B 5" not in told
    # the unsafe stone's own number, once, and not as the end of a row
    assert told.count("C 3") == 1


def test_a_building_has_a_grey_ground() -> None:
    made = mowing.SHEET.compose(churchyard(), Asked(date=DAY), Supplied())
    wide = 1000 / made.scale * 20.0
    grounds = [f for f in every(made.pages[0].ink) if isinstance(f, Fill) and len(f.rings) == 1]
    sizes = [float(f.rings[0][:, 0].max() - f.rings[0][:, 0].min()) for f in grounds]
    assert any(abs(size - wide) < 0.01 for size in sizes)


def test_a_name_that_stands_twice_is_written_once() -> None:
    second = new_item(
        gate.KIND, Point(59, 25), details=gate.GateDetails(name="Gate", sort=gate.GateSort.HAND)
    )
    told = [t.text for t in written(churchyard(second))]
    assert told.count("Gate") == 1


@pytest.mark.parametrize("paper", [Paper.A4, Paper.A3])
def test_the_map_is_readable_at_arms_length(paper: Paper) -> None:
    # heights of capitals: 2 mm, and 2.5 mm for the stones to keep away from; the names of the
    # fields of the title block alone are smaller
    fields = {"Legal owner", "Title", "Scale", "Document type", "Created by", "Approved by"}
    fields |= {"Identification no.", "Date of issue", f"Sheet ({paper.name})"}
    for text in written(churchyard(), paper=paper):
        high = text.size * CAPITAL
        assert high >= (1.79 if text.text in fields else 1.99), text.text
        if text.text == "C 3":
            assert high >= 2.49


@pytest.mark.parametrize("sheet", OF_THE_GROUND, ids=lambda s: s.name)
@pytest.mark.parametrize("paper", Paper)
def test_no_lettering_is_smaller_than_iso_3098_has_it(sheet: Sheet, paper: Paper) -> None:
    # the least height of capitals in ISO 3098 is 1.8 mm
    told = written(churchyard(), sheet, paper)
    assert min(t.size * CAPITAL for t in told) >= 1.79


def test_an_unsafe_tree_is_kept_off_like_a_stone() -> None:
    ash = tree_at(20, "ash", height_m=9.0)
    failed = inspection.InspectionDetails(
        target=ash.id, date="2026-05-02", result=inspection.Result.IMMEDIATE
    )
    told = [t.text for t in written(churchyard(ash, new_item(inspection.KIND, details=failed)))]
    words = " ".join(told)
    assert "Keep out: round an unsafe stone and an unsafe tree" in words
    assert "Unsafe, its number in a box" in words
    # it has no number, so that its name stands in the box
    assert "Tree ash" in told


def found_unsafe(thing: Item, date: str = "2026-05-02") -> Item:
    told = inspection.InspectionDetails(
        target=thing.id, date=date, result=inspection.Result.IMMEDIATE
    )
    return new_item(inspection.KIND, details=told)


@pytest.mark.parametrize("which", range(3))
def test_with_unsafe_stones_a_tree_and_a_wall_the_sample_still_fits_the_hand(
    which: int,
) -> None:
    plan = read_plan(sample("harrowmere.gpkg"))
    crab = next(t for t in plan.of(tree.KIND) if t.number == "T29")
    side = list(plan.of(wall.KIND))[which]
    failed = [found_unsafe(crab), found_unsafe(side)]
    found = plan_of([*plan.items.values(), *failed], name=plan.name, grid=plan.grid)
    made = mowing.SHEET.compose(found, Asked(date="2026-05-16"), Supplied())
    assert (made.paper, made.scale, len(made.pages)) == (Paper.A4, 500.0, 1)
    told = [t.text for t in every(made.pages[0].ink) if isinstance(t, Text)]
    words = " ".join(told).replace("\u00a0", " ")
    assert "round 9 unsafe stones, an unsafe tree and an unsafe wall" in words
    for caution in (
        "Keep out of the hatched zones, also on foot",
        "may fall without warning",
        "Only trained people test memorials.",
        "keep everybody else 15 m away",
        "173 of 320 stones have no recorded inspection",
        "Zones by local rule, no distance is published",
        "go before this map",
    ):
        assert caution in words
    assert {"T29", "Wall"} <= set(told)


def test_what_is_taken_for_a_height_is_told_of_each_kind() -> None:
    # 1.5 m of a stone and 20 m of a tree stand in the table of clearances
    bare = new_item(
        memorial.KIND, Rectangle(east=20, north=5, width=0.8, length=0.2), number="D 1"
    )
    ash = tree_at(20, "ash")
    plan = churchyard(bare, ash, found_unsafe(bare), found_unsafe(ash))
    words = " ".join(t.text for t in written(plan)).replace("\u00a0", " ")
    assert "Height not recorded, taken as 1.5 m: D 1; 20 m: Tree ash." in words
    assert "stone 1½ heights and 1 m; tree height and 1 m." in words


def test_a_zone_beyond_the_boundary_makes_the_map_no_smaller() -> None:
    by_the_wall = tree_at(59, "ash", height_m=30.0)
    plan = churchyard(by_the_wall, found_unsafe(by_the_wall))
    told = told_by(plan, Asked(date=DAY), ())
    assert len(told.zones) == 2
    assert extent_told(told) == (0.0, -0.75, 60.0, 50.0)  # the leaves of the gate open south
    # where no boundary is drawn, the whole zone is shown
    bare = plan_of(i for i in plan.items.values() if i.kind != boundary.KIND)
    reached = extent_told(told_by(bare, Asked(date=DAY), ()))
    assert reached is not None
    assert reached[2] == pytest.approx(59.0 + 31.0, abs=0.01)
