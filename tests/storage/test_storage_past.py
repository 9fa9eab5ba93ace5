"""The plan as its log knew it: every revision of any run of edits, and damaged logs."""

import shutil
from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from strategies import edits, one_of_each, plain

from plan_editor.edits.basic import Add, Remove
from plan_editor.edits.places import Move
from plan_editor.errors import CannotUse, DamagedPlan, EditRefused, NotAllowed
from plan_editor.kinds import grave, tree
from plan_editor.plan.document import Document
from plan_editor.plan.plan import Plan
from plan_editor.resources import sample
from plan_editor.storage.connection import writing
from plan_editor.storage.digests import digest_of
from plan_editor.storage.leftovers import leftovers
from plan_editor.storage.loading import read_plan
from plan_editor.storage.log import (
    last_changes,
    read_entries_of,
    read_entry,
    read_history,
)
from plan_editor.storage.past import as_known, moment
from plan_editor.storage.plan_file import PlanFile
from plan_editor.survey.grids.grid import Grid

FIRST = datetime(2026, 5, 1, 12, tzinfo=UTC)
SAMPLE = sample("harrowmere.gpkg")


def clock(*days: float) -> "Iterator[datetime]":
    return (FIRST + timedelta(days=d) for d in days)


@settings(max_examples=max(4, settings.default.max_examples // 8))
@given(data=st.data())
def test_every_revision_of_any_run_of_edits_is_the_plan_that_was_there(
    data: st.DataObject,
) -> None:
    with TemporaryDirectory() as folder:
        path = Path(folder, "plan.gpkg")
        with PlanFile.create(path, name="St Elfric", grid=Grid()) as file:
            work = Document(file.plan, journal=file)
            work.apply(Add(tuple(one_of_each().items.values())))
            were = [work.plan]
            for _ in range(data.draw(st.integers(1, 12))):
                try:
                    match data.draw(st.sampled_from(["edit", "edit", "edit", "undo", "redo"])):
                        case "undo":
                            work.undo()
                        case "redo":
                            work.redo()
                        case _:
                            work.apply(data.draw(edits(work.plan)))
                except EditRefused:
                    continue
                if work.plan is not were[-1]:
                    were.append(work.plan)
            for then in were:
                found = as_known(file.working_copy, work.plan, then.revision)
                assert found == then
                assert digest_of(found.items.values()) == digest_of(then.items.values())
            one = data.draw(st.sampled_from(were))
            with shown(file, one.revision) as copy:
                assert copy.plan.items == one.items
                assert read_plan(copy.working_copy) == copy.plan


def shown(file: PlanFile, number: int) -> PlanFile:
    return PlanFile.of_another_day(
        file.path,
        file.working_copy,
        lambda copy, now: replace(as_known(copy, now, number), name="as known"),
        of_day="as known",
    )


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """A plan with an entry on each of six days: two trees, a grave, one moved, one removed."""
    where = tmp_path / "plan.gpkg"
    one, two, yard = plain(tree.KIND, 1), plain(tree.KIND, 2), plain(grave.KIND, 3)
    days = clock(0, 1, 2, 3, 4, 5)
    with PlanFile.create(where, name="St Elfric", grid=Grid()) as file:
        work = Document(file.plan, journal=file, author="Warden", clock=lambda: next(days))
        for edit in (
            Add((one,)),
            Add((two,)),
            Add((yard,)),
            Move(ids=(yard.id, two.id), east=1.0, north=0.0, called="2 things"),
            Move(ids=(yard.id,), east=1.0, north=0.0, called="a grave"),
            Remove(ids=(one.id,), called="a tree"),
        ):
            work.apply(edit)
        file.save()
    return where


def test_a_copy_of_another_day_is_only_read_and_leaves_nothing_behind(path: Path) -> None:
    with PlanFile.open(path) as file:
        copy = shown(file, 2)
        assert copy.read_only
        assert not copy.unsaved
        assert copy.of_day == "as known"
        assert [i.kind.name for i in copy.plan.items.values()] == ["tree", "tree"]
        with pytest.raises(NotAllowed, match="the plan of today"):
            copy.save_as(path)
        other = path.with_name("other.gpkg")
        copy.save_copy(other)
        copy.close()
    assert read_plan(other).items == copy.plan.items
    assert not copy.working_copy.exists()
    assert leftovers() == ()


def test_a_copy_of_another_day_that_a_crash_leaves_is_not_offered_back(path: Path) -> None:
    with PlanFile.open(path) as file:
        copy = shown(file, 2)
        copy._copy.close()
        copy._working.let_go()
    assert leftovers() == ()
    assert not copy.working_copy.exists()


@pytest.mark.parametrize(
    ("hours", "number"), [(0.1, 1), (24, 1), (24.1, 2), (60, 3), (24 * 5.5, 6), (10**5, 6)]
)
def test_a_moment_lies_after_the_last_entry_before_it(
    path: Path, hours: float, number: int
) -> None:
    found = moment(path, FIRST + timedelta(hours=hours))
    assert (found.number, found.clock_went_back) == (number, False)
    assert found.when == (FIRST + timedelta(days=number - 1)).isoformat()


def test_before_the_first_entry_nothing_was_known(path: Path) -> None:
    with pytest.raises(CannotUse, match=r"begins on 1 May 2026, later than that day"):
        moment(path, FIRST)


def test_a_plan_without_a_log_knows_no_earlier_day(path: Path) -> None:
    change(path, "DELETE FROM history")
    with pytest.raises(CannotUse, match="The plan has no history, so nothing is known"):
        moment(path, FIRST)


def test_a_clock_that_went_back_is_told_and_later_entries_still_count(path: Path) -> None:
    change(path, "UPDATE history SET made_at = '1970-01-01T00:00:00' WHERE number = 4")
    found = moment(path, FIRST + timedelta(days=4.5))
    assert (found.number, found.clock_went_back) == (5, True)
    assert moment(path, FIRST + timedelta(days=1.5)).number == 2


def test_an_entry_whose_time_cannot_be_read_counts_with_the_one_before(path: Path) -> None:
    change(path, "UPDATE history SET made_at = 'yesterday' WHERE number = 2")
    found = moment(path, FIRST + timedelta(days=0.5))
    assert (found.number, found.clock_went_back) == (2, False)


@pytest.mark.parametrize(("entry", "number"), [(4, 3), (2, 2)], ids=["backwards", "forwards"])
@pytest.mark.parametrize(
    ("harm", "said"),
    [
        ("DELETE FROM history WHERE number = {}", "lacks entry {}"),
        (
            "UPDATE history SET changes = '[' WHERE number = {}",
            "entry {} of its history cannot",
        ),
        ("UPDATE history SET changes = '[[3]]' WHERE number = {}", "entry {} of its history"),
        ("UPDATE history SET changes = '[[3,4]]' WHERE number = {}", "names no thing"),
        ("UPDATE history SET changes = '[[null,null]]' WHERE number = {}", "names no thing"),
        (
            "UPDATE history SET changes = (SELECT changes FROM history WHERE number = 5)"
            " WHERE number = {}",
            "entry {} of its history does not fit",
        ),
    ],
)
def test_a_log_that_is_not_whole_is_told_as_damaged(
    path: Path, entry: int, number: int, harm: str, said: str
) -> None:
    now = read_plan(path)
    change(path, harm.format(entry))
    with pytest.raises(DamagedPlan, match=said.format(entry)):
        as_known(path, now, number)


def test_harm_to_entries_that_are_not_read_does_not_matter(path: Path) -> None:
    now = read_plan(path)
    change(path, "UPDATE history SET changes = '[' WHERE number = 4")
    assert len(as_known(path, now, 2).items) == 2
    assert len(as_known(path, now, 5).items) == 3


def test_the_last_entry_lacking_is_told(path: Path) -> None:
    now = read_plan(path)
    change(path, "DELETE FROM history WHERE number = 6")
    with pytest.raises(DamagedPlan, match="lacks entry 6"):
        as_known(path, now, 4)
    change(path, "DELETE FROM history")
    with pytest.raises(DamagedPlan, match="lacks entry 1"):
        as_known(path, now, 1)
    with pytest.raises(DamagedPlan, match="lacks entry 6"):
        as_known(path, now, 6)


def test_a_log_that_does_not_lead_to_the_plan_is_damaged(path: Path) -> None:
    now = read_plan(path)
    lacking = replace(Plan(name=now.name), revision=now.revision)
    with pytest.raises(DamagedPlan, match="does not lead to what it holds"):
        as_known(path, lacking, 4)


def change(path: Path, sql: str) -> None:
    with closing(writing(path)) as con:
        assert con.execute(sql).rowcount > 0


# the log in parts


def test_the_sample_is_known_as_its_story_tells(tmp_path: Path) -> None:
    now = read_plan(SAMPLE)
    found = [len(as_known(SAMPLE, now, n).items) for n in (2, 8, 14)]
    assert found == [1, 566, 1090]  # counted by adding up the titles of its log
    assert moment(SAMPLE, datetime(2026, 1, 1, tzinfo=UTC)).number == 7


def test_parts_of_the_log_are_parts_of_the_whole(path: Path) -> None:
    with PlanFile.open(path) as file:
        whole = file.entries()
    assert tuple(read_entry(path, n) for n in range(1, 7)) == whole
    assert read_history(path, 4) == read_history(path)[4:]
    yard = whole[2].changes[0].id
    alone = read_entries_of(path, yard)
    assert [e.number for e in alone] == [3, 4, 5]
    assert all(c.id == yard for e in alone for c in e.changes)
    assert [len(e.changes) for e in alone] == [1, 1, 1]
    assert alone[0] == whole[2]
    two = whole[1].changes[0].id
    assert last_changes(path, 3, {yard, two}) == {
        two: ("Move 2 things", "2026-05-04T12:00:00+00:00"),
        yard: ("Move a grave", "2026-05-05T12:00:00+00:00"),
    }
    assert last_changes(path, 6, {yard}) == {}


def test_an_entry_that_is_not_there_is_told(path: Path) -> None:
    for number in (0, 7, 99):
        with pytest.raises(CannotUse, match=f"no entry {number} in the history of plan.gpkg"):
            read_entry(path, number)


def test_a_log_with_nonsense_is_told_as_damaged(path: Path) -> None:
    yard = read_entry(path, 3).changes[0].id
    change(path, "UPDATE history SET changes = '[[3,4]]' WHERE number = 4")
    for look in (lambda: read_entry(path, 4), lambda: last_changes(path, 0, {yard})):
        with pytest.raises(DamagedPlan, match=r"plan\.gpkg is damaged"):
            look()


def test_the_sample_may_lie_in_a_folder_that_cannot_be_written(tmp_path: Path) -> None:
    copy = tmp_path / "plan.gpkg"
    shutil.copyfile(SAMPLE, copy)
    copy.chmod(0o444)
    assert as_known(copy, read_plan(copy), 3) == as_known(SAMPLE, read_plan(SAMPLE), 3)
