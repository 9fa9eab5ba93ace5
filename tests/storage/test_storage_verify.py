"""Looking through a plan's file: each sort of damage is told, and a whole file is whole."""

from pathlib import Path

import pytest
import shapely
from keeping import graves, made

from plan_editor.edits.basic import Add
from plan_editor.kinds import base_plan, burial
from plan_editor.plan.document import Document
from plan_editor.plan.item import new_item
from plan_editor.storage.connection import writing
from plan_editor.storage.log import Line, read_history
from plan_editor.storage.plan_file import PlanFile
from plan_editor.storage.saving import counter_of
from plan_editor.storage.verifying import verify


@pytest.fixture
def path(tmp_path: Path) -> Path:
    first = graves(3)
    details = burial.BurialDetails(grave=first[0].id)
    path = made(tmp_path / "plan.gpkg", (*first, new_item(burial.KIND, details=details)))
    with PlanFile.open(path) as file:
        digest = file.add(b"a scan", content_type="image/png", name="1962.png")
        told = base_plan.BasePlanDetails(name="1962", digest=digest)
        laid = new_item(base_plan.KIND, shapely.box(0, 0, 9, 9), details=told)
        document = Document(file.plan, journal=file, author="anne")
        document.apply(Add((laid,)))
        document.undo()
        document.redo()
        file.save()
    return path


def damaged(path: Path, sql: str) -> None:
    """Change the file in a way that its own count of writes does not show: as damage would."""
    con = writing(path)
    con.executescript(sql)
    counter = counter_of(path) + 1
    con.execute("UPDATE plan SET value = ? WHERE key = 'file_counter'", (counter,))
    con.close()
    assert counter_of(path) == counter


def test_a_whole_file_is_whole(path: Path) -> None:
    report = verify(path)
    assert report.whole
    assert (report.items, report.entries, report.media) == (5, 4, 1)


def test_a_working_copy_can_be_looked_through_as_well(path: Path) -> None:
    with PlanFile.open(path) as file:
        Document(file.plan, journal=file).apply(Add(graves(1, first=9)))
        report = verify(file.working_copy)
        assert report.whole
        assert report.items == 6


SPOILT = [
    ("UPDATE grave SET number = 'G 7' WHERE number = 'G 2'", "Grave G 7 was changed by damage"),
    ("DELETE FROM grave WHERE number = 'G 2'", "Grave G 2 was removed by damage"),
    ("DELETE FROM history WHERE number = 3", "no entry 3"),
    ("UPDATE history SET title = 'Add 9' WHERE number = 2", "Entry 2 of the history is not"),
    ("UPDATE history SET items_digest = 'x'", "could not be compared"),
    ("DELETE FROM rtree_grave_geom", "index of table grave does not fit"),
    ("UPDATE rtree_grave_geom SET minx = maxx", "index of table grave does not fit"),
    ("UPDATE rtree_grave_geom SET id = id + 90", "index of table grave does not fit"),
    ("DELETE FROM rtree_grave_geom_node", "index of table grave is damaged"),
    ("UPDATE media SET data = x'00'", "“1962.png” is damaged"),
    ("DELETE FROM media", "that belongs to it is gone"),
    ("UPDATE burial SET grave = 'nobody'", "points, as “Lies in”, at"),
    ("UPDATE grave SET depth_m = 99 WHERE number = 'G 2'", "Depth as dug"),
    (
        "INSERT INTO gpkg_geometry_columns VALUES ('x', 'g', 'POINT', 5, 0, 0)",
        "points to a row",
    ),
    ("INSERT INTO tree (number) VALUES ('T 1')", "of table tree has no shape"),
]


@pytest.mark.parametrize(("sql", "words"), SPOILT)
def test_damage_is_told(path: Path, sql: str, words: str) -> None:
    damaged(path, sql)
    report = verify(path)
    assert any(words in finding for finding in report.findings), report.findings
    assert all(finding.endswith(".") for finding in report.findings)


def test_another_programs_work_is_not_called_damage(path: Path) -> None:
    con = writing(path)
    con.execute("UPDATE grave SET number = 'G 7' WHERE number = 'G 2'")
    con.close()
    (finding,) = verify(path).findings
    assert finding.startswith("Grave G 7 was changed by another program")


def test_of_much_damage_some_is_told_and_the_rest_counted(tmp_path: Path) -> None:
    path = made(tmp_path / "plan.gpkg", graves(30))
    damaged(path, "DELETE FROM grave")
    findings = verify(path).findings
    assert len(findings) == 21
    assert findings[-1] == "10 more things were changed by damage to the file."


def test_a_file_that_cannot_be_opened_is_reported(path: Path) -> None:
    path.write_bytes(path.read_bytes()[:-5000])
    report = verify(path)
    assert not report.whole
    assert "cut off" in report.findings[0]


def test_the_history_tells_who_did_what(path: Path) -> None:
    lines = read_history(path)
    assert [(line.number, line.author, line.takes_back, line.items) for line in lines] == [
        (1, "test", None, 4),
        (2, "anne", None, 1),
        (3, "anne", 2, 1),
        (4, "anne", None, 1),
    ]
    assert isinstance(lines[0], Line)
    assert lines[1].title == lines[2].title
    assert "1962" in lines[1].title
