"""The verb ``compare``, on the sample and on plans made from it."""

import json
import shutil
from pathlib import Path

import pytest
from shapely import Point

from plan_editor.edits.basic import Add, Describe, Remove
from plan_editor.edits.places import Move
from plan_editor.kinds import grave, owner_contact, reservation, tree
from plan_editor.plan.document import Document
from plan_editor.plan.item import new_item
from plan_editor.resources import sample
from plan_editor.storage.connection import writing
from plan_editor.storage.plan_file import PlanFile
from plan_editor.survey.grids.grid import Grid

SAMPLE = sample("harrowmere.gpkg")
LIVING = "Quixworthy"


@pytest.fixture
def changed(tmp_path: Path) -> Path:
    """The sample with a grave moved by 3 m east and 4 m north, and described; one tree gone."""
    path = tmp_path / "changed.gpkg"
    shutil.copyfile(SAMPLE, path)
    with PlanFile.open(path) as file:
        work = Document(file.plan, journal=file)
        one = next(i for i in work.plan.of(grave.KIND) if i.number == "C 14")
        work.apply(Move(ids=(one.id,), east=3.0, north=4.0))
        work.apply(Describe(ids=(one.id,), details=(("depth_m", 1.83),)))
        oak = next(i for i in work.plan.of(tree.KIND) if i.number == "T9")
        work.apply(Remove(ids=(oak.id,)))
        kept = next(work.plan.of(reservation.KIND))
        work.apply(Describe(ids=(kept.id,), details=(("held_for", LIVING),)))
        work.apply(Add((new_item(owner_contact.KIND, details=_contact()),)))
        file.save()
    return path


def _contact() -> owner_contact.OwnerContactDetails:
    return owner_contact.OwnerContactDetails(name=LIVING)


def test_a_plan_is_the_same_as_its_copy(said, tmp_path):
    copy = tmp_path / "copy.gpkg"
    shutil.copyfile(SAMPLE, copy)
    code, out, err = said("compare", SAMPLE, copy)
    assert (code, err) == (0, "")
    assert out == "From harrowmere.gpkg to copy.gpkg: 1665 the same.\n"


def test_what_differs_is_told_field_by_field_and_nobody_living_is_named(said, changed):
    code, out, _ = said("compare", SAMPLE, changed)
    assert code == 1
    assert "1 added, 1 removed, 2 changed, 1662 the same." in out
    assert "  1 tree: T9\n" in out
    wanted = """  Grave C 14
    Place: moved 5.000 m on bearing 036.9°
    Depth as dug: nothing → 1.83 m
"""
    # 36.87° is the angle of a right-angled triangle of 3, 4 and 5
    assert wanted in out
    assert LIVING not in out
    code, out, _ = said("compare", SAMPLE, changed, "--json")
    assert LIVING not in out
    facts = json.loads(out)
    one = next(c for c in facts["changed"] if c["number"] == "C 14")
    assert one["moved"] == {
        "distance_m": 5.0,
        "bearing_deg": 36.87,
        "turned_deg": 0.0,
        "reshaped": False,
    }
    assert [f["field"] for f in one["fields"]] == ["place", "depth_m"]
    assert [r["number"] for r in facts["removed"]] == ["T9"]
    assert facts["places_compared"] is True


@pytest.mark.parametrize(
    ("day", "known", "added"),
    [
        ("2026-04-03", "on 3 April 2026", 582),
        ("3.4.2026", "on 3 April 2026", 582),
        ("2025-12", "at the end of December 2025", 1583),
    ],
)
def test_the_sample_is_compared_with_what_it_knew_on_a_day(said, day, known, added):
    # by adding up the titles of its log
    code, out, _ = said("compare", SAMPLE, "--on", day)
    assert code == 1
    assert f"as the plan knew it {known} to harrowmere.gpkg: {added} added" in out


def test_the_sample_is_today_what_it_knew_at_the_end_of_may(said):
    assert said("compare", SAMPLE, "--on", "2026-05")[0] == 0


def test_another_plan_is_compared_with_the_first_as_it_was_known(said, changed):
    code, out, _ = said("compare", SAMPLE, changed, "--on", "2026-04-03")
    assert code == 1
    assert "583 added, 1 removed" in out


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        ((SAMPLE,), "Compare with what? Give a second plan"),
        ((SAMPLE, "--on", "2020"), "begins on 6 October 2025, later than that day"),
        ((SAMPLE, "--on", "9998-01-01"), "1 January 9998 is still to come"),
        ((SAMPLE, "--on", "some day"), "Write a date as 2026-07-14"),
        ((SAMPLE, "--on", ""), "Write a date as 2026-07-14"),
        ((SAMPLE, "nowhere.gpkg"), "There is no file"),
    ],
)
def test_what_cannot_be_compared_is_refused_in_one_sentence(said, words, sentence):
    code, out, err = said("compare", *words)
    assert code == 2
    assert out == ""
    assert sentence in err
    assert "Traceback" not in err


def test_a_plan_without_a_log_or_with_a_gap_is_refused(said, changed):
    with PlanFile.open(changed) as file:
        assert len(file.entries()) > 14
    con = writing(changed)
    con.execute("DELETE FROM history WHERE number = 4")
    con.close()
    code, _, err = said("compare", changed, "--on", "2026-01-30")
    assert code == 2
    assert err.count("\n") == 1
    assert "damaged" in err


def test_a_plan_in_a_local_grid_is_compared_without_places(said, tmp_path):
    local = tmp_path / "local.gpkg"
    with PlanFile.create(local, name="", grid=Grid()) as file:
        Document(file.plan, journal=file).apply(Add((new_item(tree.KIND, Point(0, 0)),)))
        file.save()
    code, out, _ = said("compare", SAMPLE, local)
    assert code == 1
    assert "tied to nothing" in out
    assert "1 added, 1665 removed." in out


def test_two_empty_plans_are_the_same(said, tmp_path):
    paths = [tmp_path / f"{n}.gpkg" for n in range(2)]
    for path in paths:
        PlanFile.create(path, name="", grid=Grid()).close()
    code, out, _ = said("compare", *paths)
    assert code == 0
    assert "Both are empty" in out
