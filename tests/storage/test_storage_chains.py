"""The chain of the log worked out again, with the entries of one thing."""

import sqlite3
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest
from keeping import AT_SEA, graves

from plan_editor.edits.basic import Add, Describe, Remove
from plan_editor.edits.forgetting import ForgetPerson
from plan_editor.edits.person import person_of
from plan_editor.kinds import owner_contact, reservation
from plan_editor.plan.document import Document
from plan_editor.plan.item import new_item
from plan_editor.storage.chains import Chain, read_chain
from plan_editor.storage.forgetting_file import clear, once_pointing
from plan_editor.storage.log import read_entry
from plan_editor.storage.plan_file import PlanFile

FIRST, SECOND = graves(2)
KEPT = new_item(
    reservation.KIND, details=reservation.ReservationDetails(grave=FIRST.id, held_for="Jane")
)


@pytest.fixture
def path(tmp_path: Path) -> Path:
    path = tmp_path / "plan.gpkg"
    with PlanFile.create(path, name="St Elfric", grid=AT_SEA) as file:
        document = Document(file.plan, journal=file, author="warden")
        document.apply(Add((FIRST,)))
        document.apply(Add((SECOND,)))
        document.apply(Add((KEPT,)))
        document.apply(Describe(ids=(SECOND.id,), details=(("remarks", "low"),)))
        document.apply(Remove(ids=(KEPT.id,)))
        document.undo()
        document.apply(Remove(ids=(KEPT.id,)))
        file.save()
    return path


def test_entries_of_what_once_pointed_to_a_thing_are_told_though_it_is_gone(path: Path) -> None:
    chain = read_chain(path, FIRST.id)
    assert [e.number for e in chain.entries] == [1, 3, 5, 6, 7]
    assert [e.takes_back for e in chain.entries] == [None, None, None, 5, None]
    assert (chain.count, chain.whole, chain.forgotten) == (7, True, 0)
    assert chain.entries[-1].link == chain.head
    assert read_entry(path, 3).title == chain.entries[1].title


def test_more_things_are_told_of_where_they_are_wanted(path: Path) -> None:
    chain = read_chain(path, FIRST.id, {SECOND.id})
    assert [e.number for e in chain.entries] == [1, 2, 3, 4, 5, 6, 7]


@pytest.mark.parametrize(
    "sql",
    [
        "UPDATE history SET title = 'Nothing' WHERE number = 2",
        "UPDATE history SET changes = replace(changes, 'low', 'high') WHERE number = 4",
        "DELETE FROM history WHERE number = 4",
        "UPDATE history SET made_at = '2020-01-01' WHERE number = 7",
    ],
)
def test_a_log_that_was_changed_is_not_whole(path: Path, sql: str) -> None:
    with closing(sqlite3.connect(path)) as con, con:
        con.execute(sql)
    assert not read_chain(path, FIRST.id).whole


def test_a_plan_on_which_nothing_was_done_has_no_head(tmp_path: Path) -> None:
    path = tmp_path / "plan.gpkg"
    with PlanFile.create(path, name="St Elfric", grid=AT_SEA):
        pass
    assert read_chain(path, FIRST.id) == Chain()


def test_what_was_forgotten_is_counted_and_the_links_stay(path: Path) -> None:
    jane = new_item(
        owner_contact.KIND, details=owner_contact.OwnerContactDetails(name="Jane Example")
    )
    kept = replace(KEPT, details=replace(KEPT.details, contact=jane.id))
    with PlanFile.open(path) as file:
        document = Document(file.plan, journal=file)
        document.apply(Add((jane, kept)))
        before = [e.link for e in read_chain(file.working_copy, FIRST.id).entries]
        person = person_of(jane, once_pointing(file, jane.id))
        document.apply(ForgetPerson(person))
        clear(file, person, {jane.id})
        after = read_chain(file.working_copy, FIRST.id)
    assert [e.link for e in after.entries][:-1] == before
    assert after.whole
    # the reservation as it was added with her, and as she was forgotten
    assert after.forgotten == 2
