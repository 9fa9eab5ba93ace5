"""Base plans under the ink."""

from dataclasses import dataclass, field

import numpy as np
import pytest
from numpy.typing import NDArray

from plan_editor.drawing.backdrop import Backdrop, Lettering, LineWork
from plan_editor.drawing.ink import Clipped, Picture, Stroke, Text
from plan_editor.drawing.underlay import underlay
from plan_editor.drawing.viewport import Viewport
from plan_editor.geometry.mappings import Mapping, Straight
from plan_editor.ground.base_plans import Laid
from plan_editor.plan.item import ItemId

VIEW = Viewport(east=50.0, north=30.0, scale=200.0, frame=(20.0, 10.0, 220.0, 110.0))


def laid(fit: tuple[float, float, float, float, float, float], *, is_scan: bool) -> Laid:
    return Laid(
        item=ItemId("1" * 32),
        name="Plan of 1962",
        is_scan=is_scan,
        digest="0" * 64,
        mapping=Straight(fit),
        opacity=0.4,
        shown=True,
        reproducible=True,
        acknowledgement="Diocese 1962",
    )


@dataclass(frozen=True)
class White:
    """A scan that remembers what was asked of it."""

    asked: list = field(default_factory=list)

    def resampled(
        self, mapping: Mapping, extent: tuple[float, float, float, float], metres: float
    ) -> NDArray[np.uint8]:
        self.asked.append((mapping, extent, metres))
        return np.full((4, 8), 255, dtype=np.uint8)


def test_a_drawing_in_millimetres_lies_where_its_fit_puts_it() -> None:
    # turned a quarter to the left, a thousandth: x to the north, y to the west
    fit = (0.0, -0.001, 60.0, 0.001, 0.0, 20.0)
    work = LineWork(
        lines=(
            np.array([(0.0, 0.0), (10_000.0, 5000.0)]),
            np.array([(9e9, 9e9), (9.1e9, 9e9)]),
            np.array([(0.0, 0.0)]),
        ),
        texts=(
            Lettering(text="Vestry", x=0.0, y=0.0, height=500.0),
            Lettering(text="fine print", x=0.0, y=0.0, height=50.0),
        ),
    )
    (clipped,) = underlay(Backdrop(laid=laid(fit, is_scan=False), content=work), VIEW)
    assert isinstance(clipped, Clipped)
    assert clipped.box == VIEW.frame
    lines, text = clipped.ink
    assert isinstance(lines, Stroke)
    # east 60, north 20 is 10 m east and 10 m south of the middle, 120, 60 on paper
    assert [p.tolist() for p in lines.lines] == [[[170.0, 10.0], [145.0, 60.0]]]
    assert isinstance(text, Text)
    assert (text.text, text.size) == ("Vestry", pytest.approx(2.5))
    assert text.turn_deg == pytest.approx(90.0)


def test_a_drawing_outside_the_frame_leaves_no_lines() -> None:
    work = LineWork(lines=(np.array([(9e6, 0.0), (9e6, 1.0)]),))
    fit = (1.0, 0.0, 0.0, 0.0, 1.0, 0.0)
    (clipped,) = underlay(Backdrop(laid=laid(fit, is_scan=False), content=work), VIEW)
    assert isinstance(clipped, Clipped)
    assert clipped.ink == ()


def test_a_scan_is_fetched_for_the_frame_at_200_pixels_to_the_inch() -> None:
    scan = White()
    fit = (0.02, 0.0, 0.0, 0.0, -0.02, 60.0)
    (clipped,) = underlay(Backdrop(laid=laid(fit, is_scan=True), content=scan), VIEW)
    assert isinstance(clipped, Clipped)
    (picture,) = clipped.ink
    assert isinstance(picture, Picture)
    assert (picture.left, picture.bottom, picture.right, picture.top) == VIEW.frame
    assert picture.opacity == 0.4
    ((asked, extent, metres),) = scan.asked
    assert asked == Straight(fit)
    assert extent == (30.0, 20.0, 70.0, 40.0)
    assert metres == pytest.approx(25.4 / 200 / 5.0)


def test_a_scan_on_large_paper_is_coarser() -> None:
    scan = White()
    large = Viewport(east=0.0, north=0.0, scale=200.0, frame=(0.0, 0.0, 1000.0, 700.0))
    underlay(Backdrop(laid=laid((0.02, 0, 0, 0, -0.02, 0), is_scan=True), content=scan), large)
    metres = scan.asked[0][2]
    assert (1000 / 5 / metres) * (700 / 5 / metres) == pytest.approx(20e6)
