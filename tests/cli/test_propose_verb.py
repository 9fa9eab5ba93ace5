"""The verb ``propose``: graves that the sample's scan shows and a plan lacks."""

import json
from pathlib import Path

import numpy as np
import pytest
import shapely

from plan_editor.edits.base_plans import drawing_item
from plan_editor.edits.basic import Add, Describe, Remove
from plan_editor.kinds import base_plan, grave
from plan_editor.plan.document import Document
from plan_editor.plan.item import Item
from plan_editor.plan.plan import Plan
from plan_editor.resources import sample
from plan_editor.storage.loading import read_plan
from plan_editor.storage.plan_file import PlanFile

NAME = "Plan of 1962"
EVERY = 37
"""One in so many graves stays on the plan as an example."""


def traced(plan: Plan) -> list[Item]:
    return [i for i in plan.of(grave.KIND) if i.basis.source == NAME]


@pytest.fixture
def truth() -> list[Item]:
    return traced(read_plan(sample("harrowmere.gpkg")))


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    """The sample with ten of the graves that its scan shows, and none of its register."""
    path = tmp_path / "harrowmere.gpkg"
    path.write_bytes(sample("harrowmere.gpkg").read_bytes())
    with PlanFile.open(path) as file:
        document = Document(file.plan, journal=file, author="a test")
        keep = {i.id for i in traced(document.plan)[::EVERY]}
        keep |= {i.id for i in document.plan.of(base_plan.KIND)}
        # what points to the base plan or to nothing may stay
        gone = [i.id for i in document.plan.items.values() if i.id not in keep]
        document.apply(Remove(ids=tuple(gone)))
        file.save()
    return path


def shared(one: Item, others: np.ndarray) -> np.ndarray:
    common = shapely.area(shapely.intersection(one.shape, others))
    return common / (one.shape.area + shapely.area(others) - common)


def test_the_sample_s_graves_are_proposed_and_drawn_in_one_step(plan, truth, said):
    code, out, _ = said("propose", plan, "--base", NAME, "--accept", "0.35", "--json")
    told = json.loads(out)
    assert code == 0
    assert told["proposals"][0]["score"] > 0.9
    after = read_plan(plan)
    drawn = [i for i in after.of(grave.KIND) if not i.number]
    assert len(drawn) == told["drawn"] == sum(p["score"] >= 0.35 for p in told["proposals"])
    assert {i.basis.method.value for i in drawn} == {"traced"}
    assert {i.basis.source for i in drawn} == {NAME}
    assert {i.details.state for i in drawn} == {grave.State.UNKNOWN}
    shapes = np.array([i.shape for i in drawn], dtype=object)
    wanted = [i for n, i in enumerate(truth) if n % EVERY]
    best = [shared(one, shapes).max() for one in wanted]
    recall = np.mean(np.array(best) >= 0.6)
    right = sum(shared(i, np.array([w.shape for w in wanted])).max() >= 0.6 for i in drawn)
    assert recall >= 0.95
    assert right / len(drawn) >= 0.9
    corners = [
        np.hypot(*(np.array(near.rectangle.corners()) - one.rectangle.corners()).T)
        for one in wanted
        if shared(one, shapes).max() >= 0.6
        for near in [drawn[int(shared(one, shapes).argmax())]]
    ]
    assert np.mean(np.array(corners) <= 0.25) >= 0.94


def test_without_accepting_nothing_is_changed(plan, said):
    before = plan.read_bytes()
    code, out, _ = said("propose", plan, "--base", NAME.lower())
    assert code == 1
    assert plan.read_bytes() == before
    assert "outlines not drawn yet; nothing was changed." in out
    assert "check by tape before anything is dug" in out


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (("--base", "Plan of 1963"), "There is no base plan called “Plan of 1963”."),
        (("--base", NAME, "--accept", "1.5"), "“1.5” is no score; nothing was changed."),
        (("--base", NAME, "--accept", "nan"), "“nan” is no score; nothing was changed."),
        (("--base", NAME, "--accept", "all"), "“all” is no score; nothing was changed."),
        (("--base", NAME, "--kind", "tree"), "“tree” is no kind that can be proposed;"),
    ],
)
def test_what_cannot_be_asked_is_told_in_a_sentence(plan, said, words, sentence):
    before = plan.read_bytes()
    code, out, err = said("propose", plan, *words)
    assert code == 2
    assert not out
    assert sentence in err
    assert "Traceback" not in err
    assert plan.read_bytes() == before


def test_a_drawing_or_a_scan_that_is_not_placed_is_refused(plan, said):
    with PlanFile.open(plan) as file:
        document = Document(file.plan, journal=file, author="a test")
        drawing = drawing_item("Survey", "0" * 64, extent=(0.0, 0.0, 10.0, 10.0))
        document.apply(Add(items=(drawing,)))
        (scan,) = (i for i in document.plan.of(base_plan.KIND) if i.details.name == NAME)
        unplaced = (("fit", ()), ("control", ()), ("control_sd", ()), ("bend", ()))
        document.apply(Describe(ids=(scan.id,), details=unplaced))
        file.save()
    code, _, err = said("propose", plan, "--base", "Survey")
    assert code == 2
    assert "“Survey” is a drawing, not a scan; nothing was changed." in err
    code, _, err = said("propose", plan, "--base", NAME)
    assert code == 2
    assert "is not placed yet; nothing was changed. Place it by points first." in err
