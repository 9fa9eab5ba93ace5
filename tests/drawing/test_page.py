"""The parts of a page: panels, key, tables, title block, scale bar, grid."""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from churchyard import churchyard, grave, made, with_status
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Point, box

from plan_editor.drawing.compose import grouped
from plan_editor.drawing.dates import in_words
from plan_editor.drawing.grid import grid_ticks, interval
from plan_editor.drawing.ink import Anchor, Clipped, Fill, Ink, Picture, Stroke, Text
from plan_editor.drawing.key_panel import key_panel
from plan_editor.drawing.legend import HIGH, WIDE, Entry, entries, protection_entries
from plan_editor.drawing.lettering import CAPITAL, width
from plan_editor.drawing.north_point import north_point
from plan_editor.drawing.panel import Panel, beside, moved, paragraphs, stacked, words
from plan_editor.drawing.scale_bar import bar_length, scale_bar
from plan_editor.drawing.scales import INTERMEDIATE, PREFERRED, fits, largest, needed
from plan_editor.drawing.schedule import Column, Table, flowed, table_panel
from plan_editor.drawing.sources import sources
from plan_editor.drawing.title_block import WIDEST, TitleBlock, title_block
from plan_editor.drawing.viewport import Viewport
from plan_editor.drawing.zones import ringed, zone_entries, zone_ground, zone_ink
from plan_editor.geometry.outlines import Rectangle
from plan_editor.plan.item import Basis, Method, Status
from plan_editor.plan.plan import plan_of
from plan_editor.survey.grids.grid import Grid

BLOCK = TitleBlock(
    owner="St Ŵyne, Ashby Parva",
    title="Where not to mow until 20 July 2026",
    supplement="",
    document="Mowing map",
    number="MOWING-20260601",
    issued="2026-06-01",
    sheet=1,
    sheets=2,
    creator="A. Verger",
    scale=200.0,
    paper="A3",
)


def bounds(ink: tuple[Ink, ...]) -> tuple[float, float, float, float]:
    """Return the box of ink: lines without their pens, texts with their lettering."""
    points = [p for piece in ink for p in _points(piece)]
    array = np.concatenate(points)
    (left, bottom), (right, top) = array.min(axis=0), array.max(axis=0)
    return float(left), float(bottom), float(right), float(top)


def _points(piece: Ink) -> list:
    match piece:
        case Stroke():
            return list(piece.lines)
        case Fill():
            return list(piece.rings)
        case Text():
            long = width(piece.text, bold=piece.bold) * piece.size
            back = {Anchor.LEFT: 0.0, Anchor.MIDDLE: long / 2, Anchor.RIGHT: long}[piece.anchor]
            left = piece.x - back
            high = piece.y + piece.size * 0.7
            return [np.array([(left, piece.y - piece.size * 0.2), (left + long, high)])]
        case _:
            return []


def texts(ink: tuple[Ink, ...]) -> list[str]:
    return [t.text for t in ink if isinstance(t, Text)]


# --- scales (ISO 5455) ---


def test_the_largest_preferred_scale_that_fits_is_chosen() -> None:
    # 80 by 60 m are 320 by 240 mm at 1:250, on a frame of 330 by 250
    assert largest((80, 60), (330, 250)) == 250
    assert largest((80, 60), (325, 250)) == 500
    assert largest((80, 60), (330, 250), least=500) == 500
    assert largest((10_000, 10), (330, 250)) is None


def test_scales_are_those_of_iso_5455_and_of_british_plans() -> None:
    iso = {20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000}
    assert set(PREFERRED) == iso | {250, 1250, 2500}
    assert not set(INTERMEDIATE) & set(PREFERRED)


def test_ground_needs_its_size_to_scale_and_a_margin() -> None:
    # 40 m at 1:200 are 200 mm
    assert needed((40.0, 20.0), 200.0) == (206.0, 106.0)


@given(st.floats(0, 500), st.floats(0, 500), st.floats(50, 800), st.floats(50, 800))
def test_no_larger_preferred_scale_would_fit(e: float, n: float, w: float, h: float) -> None:
    found = largest((e, n), (w, h))
    larger = PREFERRED if found is None else [s for s in PREFERRED if s < found]
    assert not any(fits((e, n), (w, h), s) for s in larger)


# --- scale bar ---


def test_ten_metres_of_scale_bar_are_50_mm_at_1_to_200() -> None:
    assert bar_length(200.0, 60.0) == 10.0
    bar = scale_bar(200.0, 60.0)
    fills = [i for i in bar.ink if isinstance(i, Fill)]
    assert all(not isinstance(i, Stroke) for i in bar.ink)
    left, _, right, _ = bounds(tuple(fills))
    assert right - left == pytest.approx(50.0, abs=1e-9)
    assert "10 m" in texts(bar.ink)


@pytest.mark.parametrize("scale", PREFERRED)
@pytest.mark.parametrize("room", [45.0, 70.0, 120.0])
def test_a_scale_bar_fits_its_room_and_its_figures_do_not_touch(
    scale: float, room: float
) -> None:
    bar = scale_bar(scale, room)
    left, _, right, _ = bounds(bar.ink)
    assert left >= -0.01
    assert right <= room + 0.5
    figures = sorted(bounds((t,))[::2] for t in bar.ink if isinstance(t, Text))
    assert all(a[1] < b[0] for a, b in pairwise(figures))


def test_the_north_point_points_up() -> None:
    north = north_point(13.0)
    assert texts(north.ink) == ["N"]
    assert bounds(north.ink)[3] <= 0.1
    assert -bounds(north.ink)[1] <= 13.01


# --- grid ---


def test_grid_ticks_bear_coordinates_of_the_system() -> None:
    view = Viewport(east=40.0, north=29.0, scale=200.0, frame=(20.0, 10.0, 410.0, 287.0))
    cross, *figures = grid_ticks(view, Grid(crs="EPSG:27700", east=553_000.0, north=421_000.0))
    told = texts(tuple(figures))
    assert "553040 E" in told
    assert "421030 N" in told
    (at,) = (t for t in figures if isinstance(t, Text) and t.text == "553040 E")
    # east 553040 is plan 40, the middle of the frame
    assert at.x == pytest.approx(215.0)
    assert isinstance(cross, Stroke)


@pytest.mark.parametrize("scale", [20.0, 200.0, 500.0, 10_000.0, 1e6])
def test_ticks_are_at_least_45_mm_apart_where_that_can_be(scale: float) -> None:
    assert interval(scale) * 1000 / scale >= min(45.0, 5000.0 * 1000 / scale)


# --- key ---


def test_the_key_has_a_line_for_each_look_that_is_drawn_and_no_other() -> None:
    told = [e.text for e in entries(grouped(churchyard().items.values()))]
    assert len(told) == len(set(told))
    assert {
        "Grave",
        "Grave space, free",
        "Summer meadow",
        "Electricity cable",
        "Spread of a crown",
    } <= set(told)
    assert "Vault" not in told
    assert "Proposed" not in told


def test_the_key_names_what_is_proposed_or_to_be_removed() -> None:
    items = [with_status(grave("1", 0, 0), s) for s in Status]
    told = [e.text for e in entries(grouped(items))]
    assert {"Proposed", "To be removed"} <= set(told)


def test_a_look_that_is_left_out_has_no_line() -> None:
    items = [grave("1", 0, 0), made("tree", Point(0, 0), crown_north_m=3.0)]
    assert entries(grouped(items), lambda kind, look: None) == ()


def test_protected_roots_have_a_line_where_there_are_any() -> None:
    assert protection_entries(grouped([grave("1", 0, 0)])) == ()
    tree = made("tree", Point(0, 0), stems_mm=(300.0,))
    assert [e.text for e in protection_entries(grouped([tree]))] == ["Root protection area"]


@pytest.mark.parametrize(
    "item",
    [
        grave("1", 0, 0),
        made("ashes_plot", box(0, 0, 1, 1)),
        made("memorial", box(0, 0, 1, 1)),
        made("hedge", LineString([(0, 0), (5, 0)])),
        made("fence", LineString([(0, 0), (5, 0)])),
        made("service", LineString([(0, 0), (5, 0)])),
        made("wall", LineString([(0, 0), (5, 0)])),
        made("building", box(0, 0, 5, 5)),
        made("bench", Point(0, 0)),
    ],
)
def test_a_sample_fits_its_room(item: object) -> None:
    for entry in entries(grouped([item])):
        left, bottom, right, top = bounds(entry.sample)
        assert left >= -WIDE / 2 - 0.7
        assert right <= WIDE / 2 + 0.7
        assert bottom >= -HIGH / 2 - 0.7
        assert top <= HIGH / 2 + 0.7


def test_a_sample_of_a_kind_without_a_symbol_is_a_dot() -> None:
    bench = grouped([made("bench", Point(0, 0))])
    (entry,) = entries(bench, lambda kind, look: replace(look, symbol="", pen=None))
    assert isinstance(entry.sample[0], Fill)


def test_squares_and_stones_are_shown_in_their_proportion() -> None:
    stone = made("memorial", Rectangle(east=0, north=0, width=0.9, length=0.15))
    plot = made("ashes_plot", Rectangle(east=0, north=0, width=0.6, length=0.6))
    for entry in entries(grouped([stone, plot])):
        left, bottom, right, top = bounds(entry.sample[:1])
        assert top - bottom >= right - left


def test_the_key_fills_columns_and_is_nothing_without_entries() -> None:
    every = entries(grouped(churchyard().items.values()))
    one = key_panel(every, 50.0, size=2.5, head=3.1)
    two = key_panel(every, 100.0, size=2.5, head=3.1)
    assert two.height < 0.7 * one.height
    assert key_panel((), 50.0, size=2.5, head=3.1).height == 0.0


def test_a_line_of_the_key_ends_with_how_much_there_is() -> None:
    entry = Entry(text="Summer meadow: uncut until 20 July 2026", sample=(), figure="725 m²")
    panel = key_panel((entry,), 60.0, size=3.0, head=3.6)
    *told, figure = [t for t in panel.ink if isinstance(t, Text)]
    assert figure.text == "725 m²"
    assert bounds((figure,))[2] == pytest.approx(60.0)
    assert bounds(tuple(told))[2] < bounds((figure,))[0]


# --- zones ---


def test_a_zone_is_broken_and_hatched_and_its_stone_ringed() -> None:
    view = Viewport(east=0.0, north=0.0, scale=200.0, frame=(0.0, 0.0, 200.0, 200.0))
    inked = zone_ink([Point(0, 0).buffer(3)], view)
    strokes = [i for i in inked if isinstance(i, Stroke)]
    assert {(s.pen.width, bool(s.pen.dash)) for s in strokes} == {(0.5, True), (0.18, False)}
    (ring,) = ringed([box(-0.4, -0.1, 0.4, 0.1)], view)
    assert isinstance(ring, Stroke)
    # the whole stone lies within its ring: 0.8 m are 4 mm
    assert np.ptp(ring.lines[0][:, 0]) > 4.0
    (ground,) = zone_ground([Point(0, 0).buffer(3)], view)
    assert isinstance(ground, Fill)
    assert zone_ink([], view) == zone_ground([], view) == ringed([], view) == ()
    assert len(zone_entries()) == 2


def test_a_long_wall_has_a_line_close_round_it_and_no_ring() -> None:
    view = Viewport(east=0.0, north=0.0, scale=500.0, frame=(0.0, 0.0, 200.0, 200.0))
    wall = LineString([(-20, 0), (20, 0)])
    (close,) = ringed([wall], view)
    assert isinstance(close, Stroke)
    (line,) = close.lines
    # 40 m are 80 mm, and 0.8 mm more at both ends and sides
    assert np.ptp(line, axis=0) == pytest.approx([81.6, 1.6], abs=0.01)
    # round about a churchyard there is a line within and one without
    (both,) = ringed([box(-20, -20, 20, 20).exterior], view)
    assert isinstance(both, Stroke)
    assert len(both.lines) == 2


# --- words ---


@pytest.mark.parametrize(
    ("iso", "told"),
    [
        ("2026-07-20", "20 July 2026"),
        ("2026-07-05", "5 July 2026"),
        ("2026-12", "December 2026"),
        ("1962", "1962"),
        ("", ""),
        ("soon", "soon"),
        ("2026-13-01", "2026-13-01"),
        ("2026-xx", "2026-xx"),
    ],
)
def test_a_date_in_words(iso: str, told: str) -> None:
    assert in_words(iso) == told


def test_sources_tell_how_places_are_known_and_how_well() -> None:
    traced = Basis(method=Method.TRACED, source="the plan of 1962", date="1962", sd_m=0.3)
    taped = Basis(method=Method.TAPED, date="2026-03-14")
    known = [
        made("bench", Point(0, 0), basis=b)
        for b in (traced, traced, taped, Basis(method=Method.UNKNOWN))
    ]
    assert sources(known) == (
        "2: traced from the plan of 1962, ±0.30 m.",
        "1: taped, 14 March 2026, accuracy not recorded.",
        "1: place not known from any record.",
    )


def test_sources_past_the_fifth_are_counted() -> None:
    known = [
        made(
            "bench", Point(0, 0), basis=Basis(method=Method.TAPED, source=f"book {n}", sd_m=0.1)
        )
        for n in range(9)
    ]
    assert sources(known)[-1] == "4: by other ways, as the plan records."
    assert len(sources(known)) == 6


# --- panels ---


def test_everything_in_ink_moves() -> None:
    line = np.array([(0.0, 0.0), (1.0, 1.0)])
    picture = Picture(pixels=np.zeros((1, 1), np.uint8), left=0, bottom=0, right=1, top=1)
    ink: tuple[Ink, ...] = (
        Stroke(lines=(line,)),
        Fill(rings=(line,)),
        Text(text="a", x=0, y=0),
        picture,
    )
    clipped = moved(Clipped(box=(0, 0, 1, 1), ink=ink), 5.0, 7.0)
    assert isinstance(clipped, Clipped)
    assert clipped.box == (5, 7, 6, 8)
    stroke, fill, text, shown = clipped.ink
    assert isinstance(stroke, Stroke)
    assert stroke.lines[0].tolist() == [[5, 7], [6, 8]]
    assert isinstance(fill, Fill)
    assert fill.rings[0].tolist() == [[5, 7], [6, 8]]
    assert isinstance(text, Text)
    assert (text.x, text.y) == (5, 7)
    assert isinstance(shown, Picture)
    assert (shown.left, shown.bottom, shown.right, shown.top) == (5, 7, 6, 8)


def test_panels_stand_below_and_beside_each_other() -> None:
    one, two = Panel(width=10, height=5, ink=()), Panel(width=20, height=8, ink=())
    below, side = stacked((one, two), 2.0), beside((one, two), 2.0)
    assert (below.width, below.height) == (20, 15)
    assert (side.width, side.height) == (32, 8)
    assert stacked((), 2.0).height == beside((), 2.0).width == 0.0


def test_running_text_stays_in_its_panel() -> None:
    panel = words("Keep out of the hatched zones, also on foot. " * 5, 60.0, size=2.5)
    left, bottom, right, top = bounds(panel.ink)
    assert left >= 0.0
    assert right <= 60.0
    assert top <= 0.0
    assert -bottom <= panel.height + 0.5


def test_paragraphs_are_indented_under_their_heading() -> None:
    panel = paragraphs("Mind", ("One.", "Two."), 60.0, size=2.5, head=3.0)
    assert texts(panel.ink) == ["Mind", "–", "One.", "–", "Two."]


# --- tables ---

COLUMNS = (Column(title="Kind", share=3.0), Column(title="Number", share=1.0, figures=True))


def test_a_long_table_flows_over_pages_with_its_head_repeated() -> None:
    rows = tuple((f"Row {n}", str(n)) for n in range(120))
    pages = flowed(
        [Table(heading="What there is", columns=COLUMNS, rows=rows)], 170.0, 230.0, size=2.5
    )
    assert len(pages) > 2
    assert all(page.height <= 230.0 + 5.0 for page in pages)
    assert all("Kind" in texts(page.ink) for page in pages)
    assert texts(pages[0].ink)[0] == "What there is"
    assert texts(pages[1].ink)[0] == "What there is, continued"
    told = [t for page in pages for t in texts(page.ink) if t.startswith("Row ")]
    assert told == [f"Row {n}" for n in range(120)]


def test_a_table_begins_a_page_where_not_even_a_row_would_follow_its_head() -> None:
    many = Table(heading="One", columns=COLUMNS, rows=tuple((f"R{n}", "1") for n in range(20)))
    full = flowed([many], 170.0, 500.0, size=2.5)[0].height
    pages = flowed(
        [many, Table(heading="Two", columns=COLUMNS, rows=(("x", "1"),))],
        170.0,
        full + 6,
        size=2.5,
    )
    assert [texts(p.ink)[0] for p in pages] == ["One", "Two"]
    assert flowed([], 170.0, 100.0, size=2.5) == ()
    assert (
        len(flowed([Table(heading="None", columns=COLUMNS, rows=())], 99.0, 99.0, size=2.5))
        == 1
    )


def test_a_cell_of_many_lines_is_cut_with_an_ellipsis() -> None:
    long = Table(heading="T", columns=COLUMNS, rows=(("word " * 300, "1"),))
    (page,) = flowed([long], 100.0, 200.0, size=2.5)
    assert page.height < 50.0
    assert any(t.endswith("…") for t in texts(page.ink))
    assert table_panel(long, 100.0, size=2.5).height == pytest.approx(page.height - 5.0)


# --- title block (ISO 7200:2004) ---

FIELDS = (
    "Legal owner",
    "Title",
    "Document type",
    "Created by",
    "Approved by",
    "Identification no.",
    "Date of issue",
)


@pytest.mark.parametrize("room", [58.0, 84.0, 120.0, WIDEST, 380.0])
def test_the_title_block_has_the_fields_of_iso_7200(room: float) -> None:
    panel = title_block(BLOCK, room)
    told = texts(panel.ink)
    assert set(FIELDS) <= set(told)
    assert {"1 of 2", "1 : 200", "2026-06-01"} <= set(told)
    left, bottom, right, top = bounds(panel.ink)
    assert left >= -0.01
    assert right <= room + 0.01
    assert top <= 0.01
    assert -bottom <= panel.height + 0.01


@pytest.mark.parametrize("room", [70.0, 84.0, WIDEST, 380.0])
def test_a_title_block_is_lettered_in_the_sizes_of_iso_3098(room: float) -> None:
    # heights of capitals: 1.8 mm what a field is called, 2.5 mm, the usual size, what it says
    written = [t for t in title_block(BLOCK, room).ink if isinstance(t, Text)]
    called = {t.text for t in written} - set(texts_of_fields(BLOCK))
    for text in written:
        least = 1.8 if text.text in called else 2.5
        assert text.size * CAPITAL == pytest.approx(least), text.text


def texts_of_fields(block: TitleBlock) -> tuple[str, ...]:
    told = (block.owner, block.document, block.number, block.issued, block.creator)
    return (*told, *block.title.split(" "), block.title, block.scale_words, "1 of 2")


def test_a_title_block_of_tables_has_no_scale() -> None:
    assert "–" in texts(title_block(replace(BLOCK, scale=None), WIDEST).ink)
    named = replace(BLOCK, supplement="west side")
    assert any("west side" in t for t in texts(title_block(named, WIDEST).ink))


def test_a_very_long_owner_is_written_smaller_and_then_cut() -> None:
    long = replace(BLOCK, owner="The Blessed Virgin Mary and All the Holy Martyrs " * 4)
    panel = title_block(long, 70.0)
    assert any(t.endswith("…") for t in texts(panel.ink))
    assert bounds(panel.ink)[2] <= 70.0


def test_an_empty_plan_has_no_key() -> None:
    assert entries(grouped(plan_of([]).items.values())) == ()
