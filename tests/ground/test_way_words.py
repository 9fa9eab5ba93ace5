"""A way on foot in words."""

import numpy as np
import pytest
import shapely

from plan_editor.ground.walking import way_to
from plan_editor.ground.way_words import in_words, turned
from plan_editor.kinds import boundary, cordon, gate, grave, path
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of


def _path(*places, name=""):
    return new_item(path.KIND, shapely.LineString(places), details=path.PathDetails(name=name))


def _told(*items, to):
    thing = new_item(grave.KIND, shapely.Point(to).buffer(0.5))
    way = way_to(plan_of([*items, thing]), thing.id)
    assert way is not None
    return in_words(way)


def _gate(name):
    return new_item(gate.KIND, shapely.Point(0, 0), details=gate.GateDetails(name=name))


def test_a_way_is_told_part_by_part():
    items = (
        _gate("Lychgate"),
        _path((0, 0), (0, 40), name="Main path"),
        _path((0, 20), (-30, 20)),
    )
    assert _told(*items, to=(-20, 30)) == (
        "From the Lychgate go north along the path “Main path” for 20 m.",
        "Turn left along the path for 16 m.",
        "Turn right over the grass for 11 m.",
    )


def test_a_gate_without_a_name_and_a_step_are_told_too():
    assert _told(_gate(""), to=(1, 1)) == (
        "From the gate go north-east over the grass for a metre.",
    )


def test_a_grave_at_the_gate_needs_no_way():
    assert _told(_gate("Lychgate"), to=(0.05, 0)) == ("It is where the way begins.",)


def test_what_is_kept_off_is_gone_round_in_words_too():
    shut = new_item(cordon.KIND, shapely.box(-1, 10, 1, 11))
    told = _told(_gate("Lychgate"), _path((0, 0), (0, 30), name="Main path"), shut, to=(0, 30))
    assert told[1].endswith("over the grass, round what is kept off.")
    assert told[2].startswith("Go on along the path “Main path” for")


def test_without_a_gate_the_way_just_goes():
    ground = new_item(boundary.KIND, shapely.box(0, 0, 40, 30))
    assert _told(ground, to=(20, 5)) == ("Go north over the grass for 5 m.",)


@pytest.mark.parametrize(
    ("to", "word"),
    [
        ((0, 20), "Go straight on"),
        ((9, 12), "Turn right"),
        ((-9, 12), "Turn left"),
        ((1, 0), "Turn back"),
    ],
)
def test_turns_are_told_as_one_walks(to, word):
    before, after = np.array([(0.0, 0.0), (0.0, 10.0)]), np.array([(0.0, 10.0), to])
    assert turned(before, after) == word
