"""The verb ``check``, on the sample and on a plan with a fault."""

import json
from pathlib import Path

import pytest

from plan_editor.edits.basic import Add
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import grave
from plan_editor.plan.document import Document
from plan_editor.plan.item import new_item
from plan_editor.resources import sample
from plan_editor.storage.plan_file import PlanFile


@pytest.fixture
def crowded(plan: Path) -> Path:
    """The plan with a second grave that shares 0.50 m of the first one's breadth."""
    with PlanFile.open(plan) as file:
        place = Rectangle(east=10, north=20.5, width=1.2, length=2.5)
        other = new_item(grave.KIND, place, number="A-1")
        Document(file.plan, journal=file).apply(Add((other,)))
        file.save()
    return plan


def test_nothing_is_found_on_the_sample(said) -> None:
    code, out, _ = said("check", sample("harrowmere.gpkg"))
    assert code == 0
    assert out.startswith("Nothing is found.")


def test_each_finding_is_a_line_with_its_place_in_the_plans_coordinates(
    said, crowded: Path
) -> None:
    code, out, _ = said("check", crowded, "--rule", "overlapping_graves")
    assert code == 1
    line, summed = out.splitlines()
    # they share 2.5 m by 0.5 m from 10.0 east, 20.5 north of the plan's origin
    assert line.startswith("doubt  overlapping_graves  E 553111.25 N 421020.75")
    assert "share 1.25 m², 0.50 m deep" in line
    assert summed.endswith(".")


def test_the_json_has_rule_severity_items_place_text_and_mend(said, crowded: Path) -> None:
    code, out, _ = said("check", crowded, "--json")
    assert code == 1
    told = json.loads(out)
    by_rule = {f["rule"]: f for f in told["findings"]}
    assert set(told["findings"][0]) == {"rule", "severity", "items", "place", "text", "mend"}
    assert by_rule["overlapping_graves"]["place"] == [553111.25, 421020.75]
    numbers = [i["number"] for i in by_rule["numbers_twice"]["items"]]
    assert numbers == ["A 1", "A-1"]
    linked = by_rule["memorials_and_graves"]["mend"]
    assert linked == "Keep memorial A 1 as standing on grave A 1"


def test_one_rule_alone_may_look(said, crowded: Path) -> None:
    _, out, _ = said("check", crowded, "--rule", "numbers_twice", "--json")
    told = json.loads(out)
    assert told["rules"] == ["numbers_twice"]
    assert {f["rule"] for f in told["findings"]} == {"numbers_twice"}


@pytest.mark.parametrize(
    "words", [("no_such.gpkg",), (sample("harrowmere.gpkg"), "--rule", "nonsense")]
)
def test_what_cannot_be_checked_is_one_sentence(said, words: tuple[object, ...]) -> None:
    code, out, err = said("check", *words)
    assert code == 2
    assert out == ""
    assert len(err.strip().splitlines()) == 1
