"""A foreign drawing on the ground."""

import numpy as np
import pytest

from plan_editor.drawing.backdrop import Lettering, LineWork
from plan_editor.drawing.foreign import lines_on_ground, texts_on_ground
from plan_editor.geometry.mappings import Perspective, Straight

SLANT = Perspective((1.0, 0.0, 0.0, 0.0, 1.0, 0.0), (1.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.01))


def line(*places: tuple[float, float]) -> np.ndarray:
    return np.array(places)


def test_straight_lines_keep_their_corners():
    work = LineWork(lines=(line((0, 0), (2, 0), (2, 1)), line((5, 5)), line((1, 1), (3, 3))))
    found = lines_on_ground(work, Straight((2.0, 0.0, 10.0, 0.0, 2.0, 20.0)))
    assert [f.tolist() for f in found] == [
        [[10, 20], [14, 20], [14, 22]],
        [[12, 22], [16, 26]],
    ]


def test_nothing_drawn_is_nothing():
    assert lines_on_ground(LineWork(lines=(line((1, 1)),)), SLANT) == ()


def test_long_lines_bend_where_the_ground_bends():
    parabola = Wavy()
    (found,) = lines_on_ground(LineWork(lines=(line((0, 0), (100, 0)),)), parabola)
    assert len(found) > 60
    # every place between lies on the curve: north = x² / 1000
    assert found[:, 1] == pytest.approx(found[:, 0] ** 2 / 1000)
    assert found[-1] == pytest.approx((100, 10))


class Wavy:
    straight = (1.0, 0.0, 0.0, 0.0, 1.0, 0.0)
    is_straight = False

    def to_ground(self, places):
        x, y = places.T
        return np.stack([x, y + x**2 / 1000], axis=1)

    def to_paper(self, places):
        raise NotImplementedError


def test_lines_all_in_one_place_stay_there():
    (found,) = lines_on_ground(LineWork(lines=(line((1, 0), (1, 0)),)), SLANT)
    assert found.tolist() == [[1, 0], [1, 0]]


def test_a_text_turns_and_grows_with_the_ground():
    texts = (Lettering(text="Yew", x=1.0, y=2.0, height=3.0, turn_deg=30.0),)
    # turned a quarter to the left and twice as large
    found = texts_on_ground(texts, Straight((0.0, -2.0, 10.0, 2.0, 0.0, 20.0)))
    assert found.places.tolist() == [[6.0, 22.0]]
    assert found.heights == pytest.approx([6.0])
    assert found.turns_deg == pytest.approx([120.0])


def test_a_text_is_as_high_as_the_ground_makes_it_there():
    # stretched twice along, not across: what is written along keeps its height
    told = (
        Lettering(text="a", x=0, y=0, height=1.0),
        Lettering(text="b", x=0, y=0, height=1.0, turn_deg=90),
    )
    found = texts_on_ground(told, Straight((2.0, 0.0, 0.0, 0.0, 1.0, 0.0)))
    assert found.heights == pytest.approx([1.0, 2.0])


def test_a_text_follows_a_bend_where_it_stands():
    # the slope of x² / 1000 at 500 is 1: 45°
    found = texts_on_ground((Lettering(text="a", x=500, y=0, height=0.0),), Wavy())
    assert found.turns_deg == pytest.approx([45.0], abs=0.01)
    assert found.heights.tolist() == [0.0]


def test_no_texts_are_none():
    assert len(texts_on_ground((), SLANT).places) == 0
