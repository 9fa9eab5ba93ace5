"""Older files are brought up to date on the working copy, and kept."""

import sqlite3
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest
import shapely
from keeping import graves, made

from plan_editor.edits.basic import Add
from plan_editor.errors import DamagedPlan
from plan_editor.kinds import grave, tree
from plan_editor.plan.document import Document
from plan_editor.plan.item import new_item
from plan_editor.storage import loading, settings
from plan_editor.storage.connection import Connection, writing
from plan_editor.storage.loading import read_plan
from plan_editor.storage.plan_file import PlanFile
from plan_editor.storage.saving import counter_of
from plan_editor.storage.upgrade import Upgrade, upgrade, upgrades
from plan_editor.storage.verifying import verify


def renamed(old: str, new: str) -> str:
    """Return what renames a detail of graves, in their table and in the log."""
    return (
        f"ALTER TABLE grave RENAME COLUMN {old} TO {new};"
        f"UPDATE history SET changes = replace(changes, '\"{old}\":', '\"{new}\":')"
    )


def older(tmp_path: Path) -> Path:
    """Return a plan as the version before would have kept it, which called remarks notes."""
    told = grave.GraveDetails(remarks="under the yew")
    first, second = graves(2)
    path = made(tmp_path / "plan.gpkg", (replace(first, details=told), second))
    con = writing(path)
    con.executescript(renamed("remarks", "notes"))
    con.executescript(f"UPDATE plan SET value = {settings.FORMAT - 1} WHERE key = 'format'")
    con.close()
    return path


def call_notes_remarks(con: Connection) -> None:
    for sql in renamed("notes", "remarks").split(";"):
        con.execute(sql)


STEP = Upgrade(to=settings.FORMAT, title="notes are called remarks", run=call_notes_remarks)


def test_the_steps_lead_to_the_version_that_is_written() -> None:
    assert [step.to for step in upgrades()] == list(range(2, settings.FORMAT + 1))


def test_steps_run_in_order_all_or_none(tmp_path: Path) -> None:
    con = writing(older(tmp_path))
    last = settings.FORMAT + 1
    second = Upgrade(to=last, title="", run=lambda con: settings.write(con, second=1))
    first = Upgrade(
        to=last - 1, title="", run=lambda con: settings.write(con, second=0, first=1)
    )
    upgrade(con, (second, first), last)
    kept = dict(con.execute("SELECT key, value FROM plan").fetchall())
    assert (kept["first"], kept["second"], kept["format"]) == ("1", "1", str(last))
    con.close()


def test_a_step_that_fails_leaves_the_file_as_it_was(tmp_path: Path) -> None:
    def fails(con: Connection) -> None:
        con.execute("DELETE FROM grave")
        raise RuntimeError("half way")

    last = settings.FORMAT + 1
    con = writing(older(tmp_path))
    with pytest.raises(RuntimeError):
        upgrade(con, (STEP, Upgrade(to=last, title="fails", run=fails)), last)
    assert con.execute("SELECT count(notes) FROM grave").fetchone() == (2,)
    assert settings.read(con).format == settings.FORMAT - 1
    con.close()


def test_a_file_from_which_no_step_leads_is_told(tmp_path: Path) -> None:
    path = older(tmp_path)
    with closing(sqlite3.connect(path)) as con, con:
        con.execute("UPDATE plan SET value = 0 WHERE key = 'format'")
    before = path.read_bytes()
    with pytest.raises(DamagedPlan, match="no way leads from version 0"):
        PlanFile.open(path)
    assert path.read_bytes() == before
    assert not verify(path).whole


@pytest.fixture
def with_a_step(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(loading, "upgrades", lambda: (STEP,))


@pytest.mark.usefixtures("with_a_step")
def test_an_older_file_opens_and_is_kept_beside(tmp_path: Path) -> None:
    path = older(tmp_path)
    before = path.read_bytes()
    with PlanFile.open(path) as file:
        assert path.read_bytes() == before
        assert (
            path.with_name(f"plan.gpkg.format-{settings.FORMAT - 1}.bak").read_bytes() == before
        )
        assert file.changed_elsewhere == ()
        file.save()
        assert [i.details.remarks for i in file.plan.of(grave.KIND)] == ["under the yew", ""]
        plan = file.plan
    assert read_plan(path) == plan
    assert verify(path).findings == ()
    with PlanFile.open(path) as file:
        assert file.entries()[0].changes[0].after in plan.items.values()


@pytest.mark.usefixtures("with_a_step")
def test_an_older_file_that_is_only_read_is_left_alone(tmp_path: Path) -> None:
    path = older(tmp_path)
    before = path.read_bytes()
    assert [i.details.remarks for i in read_plan(path).of(grave.KIND)] == ["under the yew", ""]
    assert verify(path).findings == ()
    with PlanFile.open(path, read_only=True) as file:
        assert len(file.plan.items) == 2
    assert path.read_bytes() == before
    assert sorted(p.name for p in tmp_path.iterdir()) == ["plan.gpkg", "plan.gpkg.bak"]


def test_a_plan_from_before_a_kind_and_a_detail_were_known_opens(tmp_path: Path) -> None:
    path = made(tmp_path / "plan.gpkg", graves(2))
    con = writing(path)
    con.executescript("DROP TABLE tree; DROP TABLE rtree_tree_geom")
    con.executescript("DELETE FROM gpkg_contents WHERE table_name = 'tree'")
    con.executescript(
        "ALTER TABLE grave DROP COLUMN remarks; ALTER TABLE grave DROP COLUMN state"
    )
    con.executescript(f"UPDATE plan SET value = {counter_of(path)} WHERE key = 'file_counter'")
    con.close()
    assert [i.details for i in read_plan(path).of(grave.KIND)] == [grave.GraveDetails()] * 2
    with PlanFile.open(path) as file:
        assert [i.details for i in file.plan.of(grave.KIND)] == [grave.GraveDetails()] * 2
        assert file.changed_elsewhere == ()
        yew = new_item(tree.KIND, shapely.Point(1.0, 2.0), number="T 1")
        Document(file.plan, journal=file).apply(Add((yew,)))
        file.save()
    assert verify(path).findings == ()
    with closing(sqlite3.connect(path)) as con:
        assert con.execute("SELECT state FROM grave").fetchall() == [("unknown",)] * 2
