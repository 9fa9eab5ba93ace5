"""The two sheets: what stands on them, and how true to scale they are."""

import re
import subprocess
from ctypes import byref, c_float
from dataclasses import replace
from pathlib import Path

import numpy as np
import pdfplumber
import pikepdf
import pypdfium2 as pdfium
import pytest
from numpy.typing import NDArray
from shapely import LineString, Point, box

from plan_editor.drawing.backdrop import Backdrop, LineWork
from plan_editor.errors import CannotPrint
from plan_editor.geometry.outlines import Rectangle
from plan_editor.ground.base_plans import laid
from plan_editor.kinds import (
    base_plan,
    bench,
    boundary,
    grass,
    grave,
    inspection,
    memorial,
    note,
    parish,
    wall,
)
from plan_editor.plan.item import Item, new_item
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.printing.pdf import write
from plan_editor.printing.sheet import Asked, Paper, Printed, Sheet, Supplied, sheets
from plan_editor.printing.sheets import ground, mowing

OF_THE_GROUND = [s for s in sheets() if not s.about]
WITH_A_PLAN = [s for s in OF_THE_GROUND if s.name != "month"]
MM = 72 / 25.4
DAY = "2026-06-01"
NAME = "St Ŵyne, Ashby Parva"


def asked(**rest: object) -> Asked:
    return Asked(date=DAY, maker="A. Verger", **rest)


def wall_of_40_m() -> Item:
    return new_item(
        wall.KIND, LineString([(0, 0), (40, 0)]), details=wall.WallDetails(width_m=0.45)
    )


def meadow(until: str, north: float = 5.0, **rest: object) -> Item:
    details = grass.GrassDetails(regime=grass.Regime.SUMMER, uncut_until=until, **rest)
    return new_item(grass.KIND, box(2, north, 12, north + 8), details=details)


def stone(number: str, east: float, north: float = 10.0, height: float | None = 1.2) -> Item:
    place = Rectangle(east=east, north=north, width=0.8, length=0.2)
    return new_item(
        memorial.KIND, place, number=number, details=memorial.MemorialDetails(height_m=height)
    )


def space(number: str, east: float, north: float = 4.0) -> Item:
    place = Rectangle(east=east, north=north, width=1, length=2.2)
    return new_item(grave.KIND, place, number=number)


def failed(of: Item, date: str = "2026-04-02", **rest: object) -> Item:
    details = inspection.InspectionDetails(
        target=of.id, date=date, result=inspection.Result.IMMEDIATE, **rest
    )
    return new_item(inspection.KIND, details=details)


def plan(*items: Item, name: str = NAME) -> Plan:
    return plan_of(items, name=name)


def small() -> Plan:
    leaning, other = stone("M 7", 20.0), stone("M 9", 21.5)
    return plan(
        wall_of_40_m(),
        meadow("2026-07-20", name="Glebe corner"),
        leaning,
        other,
        stone("M 12", 35.0),
        failed(leaning),
        failed(other),
        *(space(f"C {n}", 20 + 2.8 * n) for n in range(5)),
    )


def text_of(folder: Path, sheet: Sheet, of: Plan, ask: Asked) -> tuple[Printed, str]:
    made = sheet.compose(of, ask, Supplied())
    out = folder / "sheet.pdf"
    assert write(made, out)
    with pdfium.PdfDocument(out) as document:
        told = "\n".join(page.get_textpage().get_text_range() for page in document)
    return made, re.sub(r"\s+", " ", told)


@pytest.mark.parametrize("sheet", [mowing.SHEET, ground.SHEET], ids=lambda s: s.name)
def test_a_wall_of_40_m_is_200_mm_on_paper_to_two_readers(tmp_path: Path, sheet: Sheet) -> None:
    made = sheet.compose(small(), asked(scale=200.0, paper=Paper.A3), Supplied())
    out = tmp_path / "sheet.pdf"
    write(made, out)
    with pdfplumber.open(out) as told:
        page = told.pages[0]
        assert (page.width / MM, page.height / MM) == pytest.approx((420, 297), abs=0.01)
        long = [abs(c["x1"] - c["x0"]) / MM for c in (*page.rects, *page.curves)]
        # the outline of the wall
        assert sum(abs(mm - 200.0) <= 0.01 for mm in long) >= 1
    lengths = _pdfium_segments(out)
    assert sum(abs(mm - 200.0) <= 0.01 for mm in lengths) >= 2


def _pdfium_segments(path: Path) -> list[float]:
    """Return the lengths of all straight segments on the first page, in millimetres."""
    raw = pdfium.raw
    with pdfium.PdfDocument(path) as document:
        return [mm for o in document[0].get_objects() for mm in _lengths(raw, o)]


def _lengths(raw: object, drawn: object) -> list[float]:
    if drawn.type != raw.FPDF_PAGEOBJ_PATH:
        return []
    a, b, c, d, e, f = drawn.get_matrix().get()
    points: list[tuple[float, float]] = []
    found = []
    for n in range(raw.FPDFPath_CountSegments(drawn)):
        segment = raw.FPDFPath_GetPathSegment(drawn, n)
        x, y = _point(raw, segment)
        points.append((a * x + c * y + e, b * x + d * y + f))
        if n and raw.FPDFPathSegment_GetType(segment) == raw.FPDF_SEGMENT_LINETO:
            found.append(float(np.hypot(*np.subtract(points[-1], points[-2]))) / MM)
    return found


def _point(raw: object, segment: object) -> tuple[float, float]:
    x, y = c_float(), c_float()
    assert raw.FPDFPathSegment_GetPoint(segment, byref(x), byref(y))
    return x.value, y.value


def test_a_metre_of_scale_bar_is_5_mm_at_1_to_200_as_poppler_draws_it(tmp_path: Path) -> None:
    made = ground.SHEET.compose(small(), asked(scale=200.0, paper=Paper.A3), Supplied())
    write(made, tmp_path / "a.pdf")
    run = ["pdftoppm", "-r", "508", "-gray", "-f", "1", "-l", "1", str(tmp_path / "a.pdf")]
    image = subprocess.run(run, capture_output=True, check=True).stdout
    shown = _pgm(image)
    with pdfplumber.open(tmp_path / "a.pdf") as told:
        words = told.pages[0].extract_words()
    (figure,) = [w for w in words if w["text"].isdigit() and _followed_by_m(w, words)]
    # the bar lies in the two millimetres under its figures, and ends under the middle of this
    low = round(figure["bottom"] / MM * 20)
    end = (figure["x0"] + figure["x1"]) / 2 / MM
    ending = [
        (stop - start) / 20
        for row in shown[low : low + 40]
        for start, stop in _dark_runs(row)
        if abs(stop / 20 - end) < 4.0
    ]
    assert float(figure["text"]) >= 10.0
    assert max(ending) == pytest.approx(5.0 * float(figure["text"]), abs=0.06)


def _followed_by_m(word: dict, words: list[dict]) -> bool:
    return any(
        w["text"] == "m" and 0 < w["x0"] - word["x1"] < 3 and abs(w["top"] - word["top"]) < 1
        for w in words
    )


def _pgm(image: bytes) -> NDArray[np.uint8]:
    _, size, _, pixels = image.split(b"\n", 3)
    wide, high = (int(n) for n in size.split())
    return np.frombuffer(pixels, np.uint8).reshape(high, wide)


def _dark_runs(row: NDArray[np.uint8]) -> NDArray[np.int_]:
    edges = np.flatnonzero(np.diff(np.concatenate([[0], (row < 128).astype(int), [0]])))
    return edges.reshape(-1, 2)


# --- paper and scale ---


def field(east: float, north: float) -> Plan:
    """Return ground of a certain size and nothing else."""
    return plan(new_item(boundary.KIND, box(0, 0, east, north)))


def test_the_largest_scale_that_fits_is_chosen_from_the_preferred() -> None:
    # 140 by 100 m are 280 by 200 mm at 1:500
    made = ground.SHEET.compose(field(140, 100), asked(paper=Paper.A3), Supplied())
    assert made.scale == 500.0
    with pytest.raises(CannotPrint):
        ground.SHEET.compose(field(140, 100), asked(paper=Paper.A3, scale=250.0), Supplied())


def test_a_scale_between_is_taken_where_the_preferred_leaves_most_of_the_frame_empty() -> None:
    # 85 by 70 m are 170 by 140 mm at 1:500, and too large for A3 at 1:250
    lost = field(85, 70)
    with pytest.raises(CannotPrint):
        ground.SHEET.compose(lost, asked(paper=Paper.A3, scale=250.0), Supplied())
    assert ground.SHEET.compose(lost, asked(paper=Paper.A3), Supplied()).scale in {300.0, 400.0}
    assert (
        ground.SHEET.compose(lost, asked(paper=Paper.A3, scale=500.0), Supplied()).scale
        == 500.0
    )


def test_a_refusal_names_a_preferred_scale_and_no_other() -> None:
    with pytest.raises(CannotPrint, match=r"on A3 it fits at 1:500; 1:250 takes A2"):
        ground.SHEET.compose(field(85, 70), asked(paper=Paper.A3, scale=250.0), Supplied())


@pytest.mark.parametrize(
    ("east", "north", "paper"),
    [(60, 40, Paper.A4), (90, 75, Paper.A4), (150, 120, Paper.A3), (400, 250, Paper.A3)],
)
def test_the_mowing_team_holds_a4_where_1_to_500_fits_and_else_a3(
    east: float, north: float, paper: Paper
) -> None:
    made = mowing.SHEET.compose(field(east, north), asked(), Supplied())
    assert made.paper is paper
    assert (made.scale <= 500.0) == (paper is Paper.A4) or made.scale <= 500.0


def test_a_mowing_map_of_very_large_ground_takes_larger_paper_before_it_is_refused() -> None:
    assert mowing.SHEET.compose(field(4000, 2500), asked(), Supplied()).paper is Paper.A2


def test_the_ground_is_on_the_smallest_paper_on_which_its_numbers_find_room() -> None:
    rows = [space(f"C {n}", 2.5 * (n % 40), 1.2 * (n // 40)) for n in range(40 * 60)]
    made = ground.SHEET.compose(plan(*rows), asked(), Supplied())
    assert made.remarks == ()
    smaller = list(Paper)[: list(Paper).index(made.paper)]
    assert smaller
    for paper in smaller:
        crowded = ground.SHEET.compose(plan(*rows), asked(paper=paper), Supplied())
        assert "There was no room to write these numbers" in crowded.remarks[0]


@pytest.mark.parametrize("paper", Paper)
def test_a_sheet_is_on_the_paper_asked_for(paper: Paper) -> None:
    made = mowing.SHEET.compose(small(), asked(paper=paper), Supplied())
    assert {made.pages[0].width, made.pages[0].height} == set(paper.value)


def test_a_scale_that_does_not_fit_is_refused_with_what_would() -> None:
    with pytest.raises(CannotPrint) as told:
        ground.SHEET.compose(small(), asked(paper=Paper.A4, scale=100.0), Supplied())
    words = str(told.value)
    would = re.search(
        r"on A4 it fits at 1:(\d+); 1:100 takes (A\d)\. Nothing was printed", words
    )
    assert would is not None
    made = ground.SHEET.compose(
        small(), asked(paper=Paper.A4, scale=float(would[1])), Supplied()
    )
    assert made.scale == float(would[1])
    larger = ground.SHEET.compose(
        small(), asked(paper=Paper[would[2]], scale=100.0), Supplied()
    )
    assert larger.paper.name == would[2]


def test_without_a_paper_the_smallest_that_takes_the_scale_is_chosen() -> None:
    made = ground.SHEET.compose(small(), asked(scale=100.0), Supplied())
    smaller = list(Paper)[list(Paper).index(made.paper) - 1]
    with pytest.raises(CannotPrint):
        ground.SHEET.compose(small(), asked(scale=100.0, paper=smaller), Supplied())


def test_a_scale_that_no_paper_takes_is_refused() -> None:
    with pytest.raises(CannotPrint, match="no paper up to A1 takes 1:20"):
        ground.SHEET.compose(small(), asked(scale=20.0), Supplied())


def test_ground_that_reaches_too_far_is_refused() -> None:
    far = plan(new_item(bench.KIND, Point(0, 0)), new_item(bench.KIND, Point(40_000, 0)))
    with pytest.raises(CannotPrint, match="far from all the rest"):
        mowing.SHEET.compose(far, asked(), Supplied())
    with pytest.raises(CannotPrint, match="40,000 by 0 m find no room"):
        mowing.SHEET.compose(far, asked(scale=200.0), Supplied())


@pytest.mark.parametrize("scale", [0.0, -200.0, float("nan"), float("inf"), 1e9])
def test_what_is_no_scale_is_refused(scale: float) -> None:
    with pytest.raises(CannotPrint, match="no scale for a churchyard"):
        mowing.SHEET.compose(small(), asked(scale=scale), Supplied())


@pytest.mark.parametrize("sheet", WITH_A_PLAN, ids=lambda s: s.name)
def test_an_empty_plan_and_a_single_thing_come_out(tmp_path: Path, sheet: Sheet) -> None:
    _, told = text_of(tmp_path, sheet, plan(name=""), asked())
    assert "There is nothing on the plan yet." in told
    assert "Churchyard without a name" in told
    made, _ = text_of(tmp_path, sheet, plan(new_item(bench.KIND, Point(5, 5))), asked())
    assert made.scale == 20.0


# --- mowing map ---


def test_the_mowing_map_says_until_when_in_its_title(tmp_path: Path) -> None:
    made, told = text_of(tmp_path, mowing.SHEET, small(), asked())
    assert made.title == f"Where not to mow until 20 July 2026 – {NAME}"
    assert len(made.pages) == 1
    assert "Glebe corner: uncut until 20 July 2026 80 m²" in told  # 10 by 8 m
    assert "SCALE 1 : " in told
    assert "keep everybody else 15 m away" in told
    assert "may fall without warning" in told
    assert NAME in told


def test_grass_whose_date_is_past_is_mown_again(tmp_path: Path) -> None:
    _, told = text_of(
        tmp_path, mowing.SHEET, plan(meadow("2026-05-31"), wall_of_40_m()), asked()
    )
    assert "Where not to mow until" not in told
    assert "Summer meadow: to be cut since 31 May 2026 80" in told


def test_a_month_rests_to_its_end_and_what_begins_later_does_not_rest_yet(
    tmp_path: Path,
) -> None:
    resting = plan(meadow("2026-06"), meadow("2026-09-01", 20.0, uncut_from="2026-07-01"))
    made, told = text_of(tmp_path, mowing.SHEET, resting, asked())
    assert made.title.startswith("Where not to mow until June 2026")
    assert "Summer meadow: mow; rests from 1 July 2026 80" in told


def test_grass_whose_rest_has_begun_and_has_no_end_is_asked_about(tmp_path: Path) -> None:
    begun = plan(meadow("", uncut_from="2026-04-01"), wall_of_40_m())
    _, told = text_of(tmp_path, mowing.SHEET, begun, asked())
    assert "Summer meadow: no date recorded, ask first 80" in told


def test_the_mowing_map_says_of_how_many_stones_nothing_is_known(tmp_path: Path) -> None:
    stones = [
        new_item(memorial.KIND, Rectangle(east=3.0 * n, north=2, width=0.8, length=0.2))
        for n in range(3)
    ]
    found = inspection.InspectionDetails(
        target=stones[0].id, date="2026-04-02", result=inspection.Result.SOUND
    )
    seen = new_item(inspection.KIND, details=found)
    _, told = text_of(tmp_path, mowing.SHEET, plan(*stones, seen), asked())
    assert "2 of 3 stones have no recorded inspection" in told
    assert "no zone does not mean safe" in told


def test_a_meadow_without_a_date_is_asked_about_and_by_hand_is_said(tmp_path: Path) -> None:
    def piece(regime: grass.Regime, north: float, name: str = "") -> Item:
        details = grass.GrassDetails(regime=regime, name=name)
        return new_item(grass.KIND, box(0, north, 10, north + 4), details=details)

    kept = plan(
        piece(grass.Regime.ROUGH, 0),
        piece(grass.Regime.BY_HAND, 5),
        piece(grass.Regime.BY_HAND, 10, "Yew bed"),
        piece(grass.Regime.SHORT, 15),
        piece(grass.Regime.SHORT, 20),
    )
    _, told = text_of(tmp_path, mowing.SHEET, kept, asked())
    assert "Rough grass: no date recorded, ask first 40" in told
    assert "Trim by hand only 80" in told
    assert "Mow short 80" in told


def test_stones_to_keep_away_from_are_boxed_and_their_zones_measured(tmp_path: Path) -> None:
    made, told = text_of(tmp_path, mowing.SHEET, small(), asked())
    # machines: 1.5 x 1.2 + 1.0 = 2.8 m from both stones, 1.5 m apart: one zone. Two
    # rectangles of 0.8 by 0.2 m joined to one of 0.8 by 1.7: Steiner, A + P r + pi r^2
    around = 0.8 * 1.7 + 2 * (0.8 + 1.7) * 2.8 + np.pi * 2.8**2
    found = re.search(r"Keep out: round 2 unsafe stones (\d+) m²", told)
    assert found is not None
    assert float(found[1]) == pytest.approx(around, abs=1.0)
    assert "M 7" in told
    assert "M 9" in told
    assert "M 12" not in told
    assert made.remarks == ()


def test_a_stone_made_safe_or_failed_later_is_no_zone(tmp_path: Path) -> None:
    leaning = stone("M 7", 20.0)
    sound = new_item(
        inspection.KIND,
        details=inspection.InspectionDetails(
            target=leaning.id, date="2026-05-01", result=inspection.Result.SOUND
        ),
    )
    for found in (
        plan(leaning, failed(leaning), sound),
        plan(leaning, failed(leaning, "2026-06-02")),
    ):
        _, told = text_of(tmp_path, mowing.SHEET, found, asked())
        assert "Keep out:" not in told


def test_a_height_that_is_not_recorded_is_owned_to(tmp_path: Path) -> None:
    many = [stone(f"S {n}" if n else "", 5.0 * n, height=None) for n in range(12)]
    _, told = text_of(tmp_path, mowing.SHEET, plan(*many, *(failed(s) for s in many)), asked())
    assert "Height not recorded, taken as 1.5 m: no number, S 1," in told
    assert "and 4 more." in told


def test_many_unsafe_stones_still_make_one_page(tmp_path: Path) -> None:
    many = [stone(f"S {n}", 3.0 * (n % 20), 3.0 * (n // 20)) for n in range(200)]
    made, told = text_of(
        tmp_path, mowing.SHEET, plan(*many, *(failed(s) for s in many)), asked(paper=Paper.A4)
    )
    assert len(made.pages) == 1
    assert "Keep out: round 200 unsafe stones" in told
    # whatever found no room is said
    assert all(f"S {n}" in told or f"S {n}" in made.remarks[0] for n in range(200))


def test_a_fresh_grave_is_kept_off_as_long_as_the_parish_lets_it_settle(
    tmp_path: Path,
) -> None:
    def dug(when: str, *more: Item) -> Plan:
        place = Rectangle(east=0, north=0, width=1, length=2.2)
        fresh = new_item(grave.KIND, place, details=grave.GraveDetails(dug=when))
        return plan(fresh, wall_of_40_m(), *more)

    settling = "Settling grave: no machine on it"
    for when in ("2026-05-30", "2026-05", "2025-12", "2025"):
        assert settling in text_of(tmp_path, mowing.SHEET, dug(when), asked())[1], when
    for when in ("2026-06-02", "2025-11", "2024", ""):
        assert settling not in text_of(tmp_path, mowing.SHEET, dug(when), asked())[1], when
    a_year = new_item(parish.KIND, details=parish.ParishDetails(settling_months=12))
    assert settling in text_of(tmp_path, mowing.SHEET, dug("2025-07", a_year), asked())[1]


# --- plan of the ground ---


def test_the_plan_of_the_ground_has_every_number_and_what_there_is(tmp_path: Path) -> None:
    made, told = text_of(tmp_path, ground.SHEET, small(), asked())
    assert all(f"C {n}" in told for n in range(5))
    assert len(made.pages) == 2
    assert "Walls 1 18.0 40.0" in told  # 40 m by 0.45 m
    assert "2 of 2" in told
    assert "Probe before digging" in told
    assert "check the scale bar with a ruler" in told


def test_unsafe_memorials_are_scheduled_with_both_distances(tmp_path: Path) -> None:
    leaning = stone("M 7", 20.0)
    kept = plan(leaning, failed(leaning, action="prop and write to the family"), wall_of_40_m())
    _, told = text_of(tmp_path, ground.SHEET, kept, asked())
    # 1.2 m high: people 1.2 + 1.0, machines 1.5 x 1.2 + 1.0
    assert "M 7 1.20 2 April 2026 prop and write to the family 2.2 2.8" in told
    assert "trained" in told


def test_a_height_taken_from_the_rule_is_starred(tmp_path: Path) -> None:
    leaning = stone("", 20.0, height=None)
    _, told = text_of(tmp_path, ground.SHEET, plan(leaning, failed(leaning)), asked())
    assert "no number" in told
    assert "2.5*" in told


def test_a_stone_on_a_numbered_grave_goes_by_the_number_of_the_grave(tmp_path: Path) -> None:
    space = new_item(grave.KIND, Rectangle(east=20, north=4, width=1, length=2.2), number="C 1")
    standing = stone("M 77", 20.0, 4.1)
    on = replace(standing, details=replace(standing.details, grave=space.id))
    _, told = text_of(tmp_path, ground.SHEET, plan(space, on), asked())
    assert "M 77" not in told
    assert "known by the number of the grave" in told
    unsafe = text_of(tmp_path, ground.SHEET, plan(space, on, failed(on)), asked())[1]
    assert "M 77 Grave C 1" in unsafe


def test_numbers_without_room_are_remarked_on() -> None:
    many = [
        new_item(
            grave.KIND,
            Rectangle(east=2.3 * (n % 40), north=1.05 * (n // 40), width=1, length=2.2),
            number=f"Row C {n}",
        )
        for n in range(800)
    ]
    made = ground.SHEET.compose(plan(*many), asked(paper=Paper.A4, scale=1000.0), Supplied())
    assert made.remarks == (
        "There was no room to write these numbers and names on the plan: the numbers of 800"
        " graves. What they belong to is drawn. A larger scale has more room.",
    )


def test_a_few_numbers_without_room_are_remarked_on_by_name() -> None:
    slab = space("C 7", 0.0)
    on = new_item(
        memorial.KIND,
        Rectangle(east=-9, north=-5, width=22, length=22),
        details=memorial.MemorialDetails(grave=slab.id),
    )
    made = ground.SHEET.compose(plan(slab, on), asked(), Supplied())
    assert made.remarks == (
        "There was no room to write these numbers and names on the plan: C 7. What they belong"
        " to is drawn. A larger scale has more room.",
    )


def test_a_character_in_no_font_is_remarked_on() -> None:
    made = ground.SHEET.compose(
        plan(new_item(note.KIND, Point(0, 0), details=note.NoteDetails(text="汉"))),
        asked(),
        Supplied(),
    )
    assert made.remarks == (
        "None of the fonts has these; a question mark stands for each: 汉 (U+6C49).",
    )


# --- base plans ---


def _with_base_plan(**rest: object) -> tuple[Plan, Backdrop]:
    details = base_plan.BasePlanDetails(
        name="Plan of 1962",
        content=base_plan.Content.DRAWING,
        digest="0" * 64,
        fit=(1.0, 0, 0, 0, 1.0, 0),
        **rest,
    )
    under = new_item(base_plan.KIND, box(0, 0, 40, 20), details=details)
    found = plan(wall_of_40_m(), under)
    work = LineWork(lines=(np.array([(0.0, 0.0), (30.0, 12.0)]),))
    return found, Backdrop(laid=laid(found)[0], content=work)


@pytest.mark.parametrize("sheet", [mowing.SHEET, ground.SHEET], ids=lambda s: s.name)
def test_a_base_plan_lies_under_a_sheet_with_its_acknowledgement(
    tmp_path: Path, sheet: Sheet
) -> None:
    of, under = _with_base_plan(reproducible=True, copyright="© Diocese 1962", licence="L 42")
    made = sheet.compose(of, asked(base_plans=True), Supplied(backdrops=(under,)))
    write(made, tmp_path / "a.pdf")
    with pdfium.PdfDocument(tmp_path / "a.pdf") as document:
        told = re.sub(r"\s+", " ", document[0].get_textpage().get_text_range())
    assert "Base plan: Plan of 1962. © Diocese 1962 Licence L 42." in told
    without = sheet.compose(of, asked(), Supplied(backdrops=(under,)))
    assert len(without.pages[0].ink) < len(made.pages[0].ink)


@pytest.mark.parametrize("sheet", [mowing.SHEET, ground.SHEET], ids=lambda s: s.name)
def test_a_base_plan_that_may_not_be_reproduced_is_left_out_and_said(sheet: Sheet) -> None:
    of, under = _with_base_plan(reproducible=False)
    made = sheet.compose(of, asked(base_plans=True), Supplied(backdrops=(under,)))
    assert "Plan of 1962 is not under the sheet" in made.remarks[0]
    plain = sheet.compose(of, asked(), Supplied())
    assert len(plain.pages[0].ink) == len(made.pages[0].ink)


# --- every sheet ---


@pytest.mark.parametrize("sheet", OF_THE_GROUND, ids=lambda s: s.name)
def test_a_sheet_of_a_plan_with_a_long_name_stays_whole(tmp_path: Path, sheet: Sheet) -> None:
    long = replace(
        small(), name="The Blessed Virgin Mary and All the Holy Martyrs of the Marshes " * 4
    )
    made, told = text_of(tmp_path, sheet, long, asked(paper=Paper.A4))
    assert "…" in told
    with pikepdf.open(tmp_path / "sheet.pdf") as opened:
        assert len(opened.pages) == len(made.pages)
