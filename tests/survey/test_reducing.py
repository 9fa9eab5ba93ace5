"""From what was read on a tape to what is adjusted."""

import pytest

from plan_editor.errors import CannotRead, CannotUse
from plan_editor.survey.adjustment import taping
from plan_editor.survey.adjustment.observed import Angle, Bearing, Hand, Offset, Tape
from plan_editor.survey.books.field_book import BookLine, Sort
from plan_editor.survey.books.reducing import Reading, angle_sd_of, hands, level, reduced, sd_of


def tie(start: str, point: str, **more) -> BookLine:
    kept = {"distance": 5.0, **more}
    return BookLine(line=1, sort=Sort.TIE, start=start, point=point, **kept)


def read(*lines: BookLine) -> list[Reading]:
    return [
        Reading(key=f"k{n}", book="B", line=line, swing="b") for n, line in enumerate(lines)
    ]


def test_a_slope_is_reduced_by_hand_figures():
    # the right-angled triangles 3, 4, 5 and 5, 12, 13; cos 60° is a half
    assert level(5.0, None, 3.0) == pytest.approx(4.0, abs=1e-12)
    assert level(13.0, None, -5.0) == pytest.approx(12.0, abs=1e-12)
    assert level(10.0, 60.0, None) == pytest.approx(5.0, abs=1e-12)
    assert level(10.0, None, None) == 10.0
    # 30 m at 2°: 18.3 mm short, as the tables of cosines have it (0.99939083)
    assert level(30.0, 2.0, None) == pytest.approx(29.98172, abs=1e-5)
    with pytest.raises(CannotUse, match="a rise of 6 m is no less than the distance of 5 m"):
        level(5.0, None, 6.0)


def test_each_sort_of_line_gives_what_it_measured():
    offset = BookLine(
        line=1, sort=Sort.OFFSET, start="A", end="B", point="P", distance=9.0, aside=-2.0
    )
    leg = BookLine(
        line=2, sort=Sort.LEG, start="A", end="B", distance=5.0, rise=3.0, bearing=75.0,
        angle=60.0, back="C", compass=True, sd=0.01, angle_sd=0.1,
    )  # fmt: skip
    way = BookLine(line=3, sort=Sort.LEG, start="A", end="B", bearing=75.0)
    found = reduced(
        read(tie("M", "P", sd=0.02), offset, leg, way, tie("M", "Q", left_out=True))
    )
    assert found == (
        Tape(key="k0", start="M", end="P", metres=5.0, sd=0.02),
        Offset(
            key="k1",
            start="A",
            end="B",
            point="P",
            along=9.0,
            aside=-2.0,
            sd=sd_of(offset) or 0,
        ),
        Tape(key="k2", start="A", end="B", metres=4.0, sd=0.01),
        Angle(key="k2", at="A", back="C", fore="B", degrees=60.0, sd_deg=0.1),
        Bearing(key="k2", start="A", end="B", degrees=75.0, sd_deg=0.1, swing="b"),
        Bearing(key="k3", start="A", end="B", degrees=75.0, sd_deg=0.5),
    )


def test_usual_standard_deviations_grow_with_the_length():
    # resources/taping.toml: 20 mm and 1 mm for each metre of a fibre tape
    assert sd_of(tie("M", "P", distance=30.0)) == pytest.approx(0.050)
    steel = taping.usual().named("STEEL")
    assert steel is not None
    assert sd_of(tie("M", "P", distance=30.0), steel) == pytest.approx(0.019)
    far = BookLine(
        line=1, sort=Sort.OFFSET, start="A", end="B", point="P", distance=10.0, aside=10.0
    )
    assert sd_of(far) == pytest.approx(0.0671)  # 0.030 of the tape, 0.060 of the right angle
    assert sd_of(tie("M", "P", distance=None)) is None
    assert angle_sd_of(tie("M", "P")) is None
    assert taping.usual().named("rubber") is None


def test_a_side_is_of_the_line_from_the_first_mark_to_the_second():
    found = hands(
        read(
            tie("M2", "P", right=True),
            tie("M2", "P"),
            tie("M1", "P"),
            tie("M3", "Q", right=False, end="M4"),
            tie("M1", "R", right=True),
        )
    )
    assert found == (
        Hand(point="P", start="M2", end="M1", right=True),
        Hand(point="Q", start="M3", end="M4", right=False),
    )


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("degrees = 0.5", "degrees = -1"),
        ("reading_m = 0.020", 'reading_m = "wide"'),
        ('usual_tape = "fibre"', 'usual_tape = "rubber"'),
        ("[offset]", "[other]"),
        ("[offset]", "[offset"),
    ],
)
def test_a_damaged_table_of_tapes_is_told(tmp_path, monkeypatch, old, new):
    text = taping.resource("taping.toml").read_text("utf-8")
    assert old in text
    (tmp_path / "taping.toml").write_text(text.replace(old, new, 1), "utf-8")
    monkeypatch.setattr(taping, "resource", lambda name: tmp_path / name)
    with pytest.raises(CannotRead, match=r"taping\.toml lacks a figure"):
        taping.usual.__wrapped__()
