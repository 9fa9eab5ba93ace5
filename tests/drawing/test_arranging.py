"""How a page is arranged round a drawing, and what stands on every page."""

from collections.abc import Callable, Sequence
from dataclasses import replace

import pytest
from shapely import box

from plan_editor.drawing.arranging import Beside, Manner, arranged, arrangements
from plan_editor.drawing.ink import Text
from plan_editor.drawing.lettering import CAPITAL, width
from plan_editor.drawing.page import (
    PAD,
    Arrangement,
    head_height,
    headline_panel,
    inner,
    page_ink,
    sizes_for,
)
from plan_editor.drawing.panel import Panel
from plan_editor.drawing.title_block import TitleBlock, title_block

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
HEADLINE = ("Where not to mow", "St Ŵyne, mowing map of 1 June 2026")
A4 = (297.0, 210.0)
SIZES = [A4, (420.0, 297.0), (210.0, 297.0), (841.0, 594.0)]


def four(room: float) -> tuple[Panel, ...]:
    return tuple(Panel(width=room, height=20.0, ink=()) for _ in range(4))


def block(room: float) -> float:
    return title_block(BLOCK, room).height


def beside(
    paper: tuple[float, float], panels: Callable[[float], Sequence[Panel]] = four
) -> Beside:
    sizes = sizes_for(*paper)
    return Beside(
        panels=panels, head=lambda room: headline_panel(HEADLINE, room, sizes), block=block
    )


@pytest.mark.parametrize("paper", SIZES)
@pytest.mark.parametrize("manner", Manner)
def test_nothing_on_a_page_overlaps_and_the_title_block_is_low_right(
    paper: tuple[float, float], manner: Manner
) -> None:
    places = arranged(paper, beside(paper), (90.0, 90.0), manner)
    assert isinstance(places, Arrangement)
    frame = box(*inner(*paper))
    # ISO 5457: 20 mm to file by on the left, 10 mm elsewhere
    assert frame.bounds == (20.0, 10.0, paper[0] - 10.0, paper[1] - 10.0)
    left, top, room = places.block
    low = box(left, top - block(room), left + room, top)
    assert low.bounds[1:3] == pytest.approx((10.0, paper[0] - 10.0))
    plan = box(*places.plan)
    columns = [box(x, low.bounds[3], x + w, y) for x, y, w in places.columns]
    assert all(frame.buffer(0.01).contains(part) for part in (low, plan, *columns))
    assert not any(c.buffer(-0.01).intersects(plan) for c in (*columns, low))
    assert sum(places.per_column) == (5 if places.headed else 4)
    assert places.room == (plan.bounds[2] - plan.bounds[0], plan.bounds[3] - plan.bounds[1])
    assert places.room >= (90.0, 90.0)


@pytest.mark.parametrize("manner", Manner)
def test_panels_fit_their_columns(manner: Manner) -> None:
    def tall(room: float) -> tuple[Panel, ...]:
        return tuple(Panel(width=room, height=1500.0 / room, ink=()) for _ in range(5))

    places = arranged(A4, beside(A4, tall), (90.0, 90.0), manner)
    assert places is not None
    start = 0
    for (_, top, room), count in zip(places.columns, places.per_column, strict=True):
        head = (headline_panel(HEADLINE, room, places.sizes),) if places.headed else ()
        made = (*head, *tall(room))[start : start + count]
        floor = places.block[1] if places.block[0] <= places.columns[0][0] else 10.0
        assert top - sum(p.height + PAD for p in made) >= floor - 1e-6
        start += count


def test_a_column_grows_wider_until_everything_fits() -> None:
    def tall(room: float) -> tuple[Panel, ...]:
        return (Panel(width=room, height=14000.0 / room, ink=()),)

    paper = (420.0, 297.0)
    narrow = arranged(paper, beside(paper), (90.0, 90.0), Manner.FOOT)
    wide = arranged(paper, beside(paper, tall), (90.0, 90.0), Manner.FOOT)
    assert narrow is not None
    assert wide is not None
    assert wide.plan[2] < narrow.plan[2]


def test_what_has_no_room_is_not_arranged() -> None:
    huge = beside(A4, lambda room: (Panel(width=room, height=999.0, ink=()),))
    assert list(arrangements(A4, huge, (50.0, 50.0))) == []
    assert list(arrangements(A4, beside(A4), (280.0, 50.0))) == []
    assert list(arrangements(A4, beside(A4), (50.0, 200.0))) == []


def test_a_drawing_as_high_as_the_frame_has_its_headline_beside_it() -> None:
    (only,) = arrangements(A4, beside(A4), (150.0, 188.0))
    assert only.headed
    assert only.room[1] == 190.0
    ink = page_ink(only, HEADLINE, four(only.columns[0][2]), title_block(BLOCK, 60.0))
    head = next(t for t in ink if isinstance(t, Text) and t.text in HEADLINE[0])
    assert head.x > only.plan[2]


def test_a_title_block_along_the_bottom_says_what_the_second_line_would() -> None:
    places = arranged(A4, beside(A4), (90.0, 90.0), Manner.STRIP)
    assert places is not None
    ink = page_ink(places, HEADLINE, four(60.0), title_block(BLOCK, places.block[2]))
    over = [t.text for t in ink if isinstance(t, Text) and t.y > places.plan[3]]
    assert over == [HEADLINE[0]]


@pytest.mark.parametrize(
    "title", ["Where not to mow", "A title that is far too long for a sheet " * 6]
)
def test_a_headline_stays_over_the_plan(title: str) -> None:
    places = arranged(A4, beside(A4), (90.0, 90.0), Manner.FOOT)
    assert places is not None
    named = (title, "St Ŵyne " * 40)
    ink = page_ink(places, named, four(60.0), title_block(BLOCK, places.block[2]))
    head = [t for t in ink if isinstance(t, Text) and t.y > places.plan[3]]
    assert len(head) == 2
    for text in head:
        assert text.x + width(text.text, bold=text.bold) * text.size <= places.plan[2]
        assert text.y + text.size * CAPITAL <= 200.0
    assert head[0].y - head[1].y > head[1].size * CAPITAL


def test_a_page_without_panels_below_is_arranged() -> None:
    none = beside(A4, lambda room: ())
    places = arranged(A4, none, (90.0, 90.0), Manner.BELOW)
    assert places is not None
    assert sum(places.per_column) == 0


def test_paper_too_large_for_the_hand_has_larger_lettering() -> None:
    # capitals of 2 mm can be read at arm's length
    assert sizes_for(297, 210).body * CAPITAL == pytest.approx(2.0)
    assert sizes_for(420, 297) == sizes_for(297, 210)
    assert sizes_for(841, 594).body > sizes_for(594, 420).body > sizes_for(420, 297).body
    assert head_height(sizes_for(297, 210)) < 20.0


def test_a_long_headline_takes_several_lines_at_the_head_of_a_column() -> None:
    long = headline_panel((HEADLINE[0] * 3, HEADLINE[1]), 55.0, sizes_for(*A4))
    assert long.height > headline_panel(HEADLINE, 55.0, sizes_for(*A4)).height
    assert title_block(replace(BLOCK, title=BLOCK.title * 2), 180.0).height > block(180.0)
