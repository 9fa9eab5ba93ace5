"""Files that are not ours, damaged, newer or hostile: one clear sentence each, and no harm."""

import random
import shutil
import sqlite3
import struct
from collections.abc import Callable
from contextlib import closing, suppress
from pathlib import Path

import pyogrio
import pytest
from hypothesis import settings
from keeping import made
from strategies import one_of_each

from plan_editor.errors import (
    DamagedPlan,
    FileProblem,
    HostilePlan,
    NewerPlan,
    NotAPlan,
    NotThere,
)
from plan_editor.storage import reading, rtree
from plan_editor.storage.connection import writing
from plan_editor.storage.loading import read_media, read_plan
from plan_editor.storage.log import read_history
from plan_editor.storage.plan_file import PlanFile
from plan_editor.storage.settings import FORMAT
from plan_editor.storage.verifying import verify

THOROUGH = settings.default.max_examples >= 1000


@pytest.fixture(scope="module")
def good(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return made(tmp_path_factory.mktemp("good") / "plan.gpkg", one_of_each().items.values())


@pytest.fixture
def path(good: Path, tmp_path: Path) -> Path:
    return Path(shutil.copyfile(good, tmp_path / "plan.gpkg"))


A_ROW_TOO = "UPDATE tree SET number = 'changed too'"


def empty(path: Path) -> None:
    path.write_bytes(b"")


def a_text(path: Path) -> None:
    path.write_text("Dear churchwarden,\n" * 50)


def a_short_text(path: Path) -> None:
    path.write_text("x")


def cut_off_in_the_head(path: Path) -> None:
    path.write_bytes(path.read_bytes()[:60])


def half(path: Path) -> None:
    path.write_bytes(path.read_bytes()[: path.stat().st_size // 2])


def a_byte_short(path: Path) -> None:
    path.write_bytes(path.read_bytes()[:-1])


def another_database(path: Path) -> None:
    path.unlink()
    with closing(sqlite3.connect(path)) as con:
        con.execute("CREATE TABLE plan (key, value)")


def a_geopackage_of_another_program(path: Path) -> None:
    path.unlink()
    pyogrio.raw.write(
        path,
        [struct.pack("<BIdd", 1, 1, 1.0, 2.0)],
        [],
        [],
        driver="GPKG",
        geometry_type="Point",
        crs="EPSG:27700",
    )


def done(path: Path, sql: str) -> None:
    con = writing(path)
    con.executescript(sql)
    con.close()


def of_a_later_version(path: Path) -> None:
    done(path, f"UPDATE plan SET value = {FORMAT + 1} WHERE key = 'format'")


def of_a_later_version_with_triggers(path: Path) -> None:
    of_a_later_version(path)
    with_a_trigger(path)


def of_a_later_standard(path: Path) -> None:
    done(path, "PRAGMA user_version = 20000")


def without_a_version(path: Path) -> None:
    done(path, "DELETE FROM plan WHERE key = 'format'")


def with_a_version_that_is_no_number(path: Path) -> None:
    done(path, "UPDATE plan SET value = '²' WHERE key = 'format'")


def with_a_version_without_end(path: Path) -> None:
    done(path, f"UPDATE plan SET value = '{'9' * 5000}' WHERE key = 'format'")


def with_a_trigger(path: Path) -> None:
    done(path, "CREATE TRIGGER t AFTER INSERT ON history BEGIN DELETE FROM grave; END")


def with_a_trigger_on_a_kind(path: Path) -> None:
    done(path, "CREATE TRIGGER t AFTER INSERT ON grave BEGIN DELETE FROM grave; END")


def with_a_trigger_that_looks_like_ours(path: Path) -> None:
    (_, ours, *_) = rtree.statements("grave", "geom")
    done(path, 'DROP TRIGGER "rtree_grave_geom_insert"')
    done(path, ours.replace("; END", "; DELETE FROM history; END"))


def with_a_view(path: Path) -> None:
    done(path, "CREATE VIEW v AS SELECT * FROM grave")


def with_a_view_for_a_table(path: Path) -> None:
    done(path, "ALTER TABLE tree RENAME TO old; CREATE VIEW tree AS SELECT * FROM old")


def with_a_virtual_table(path: Path) -> None:
    done(path, "CREATE VIRTUAL TABLE v USING fts5(x)")


def with_an_index_of_its_own(path: Path) -> None:
    done(path, "CREATE VIRTUAL TABLE v USING rtree(id, a, b)")


def with_a_column_that_computes(path: Path) -> None:
    done(path, "ALTER TABLE tree ADD COLUMN bomb AS (zeroblob(900000000))")


def with_a_number_that_is_none(path: Path) -> None:
    done(path, "UPDATE plan SET value = 'east' WHERE key = 'origin_east'")


def with_a_log_that_was_changed(path: Path) -> None:
    done(path, "UPDATE history SET changes = replace(changes, 'grave', 'tree')")
    done(path, A_ROW_TOO)


def with_a_log_that_is_no_log(path: Path) -> None:
    done(path, f"UPDATE history SET changes = '{'[' * 200_000}'")
    done(path, A_ROW_TOO)


REFUSED: list[tuple[Callable[[Path], None], type[FileProblem], str]] = [
    (empty, NotAPlan, "is empty"),
    (a_text, NotAPlan, "another sort of file"),
    (a_short_text, NotAPlan, "another sort of file"),
    (cut_off_in_the_head, DamagedPlan, "cut off"),
    (half, DamagedPlan, "cut off"),
    (a_byte_short, DamagedPlan, "cut off"),
    (another_database, NotAPlan, "a database of another program"),
    (a_geopackage_of_another_program, NotAPlan, "not a plan of a churchyard"),
    (of_a_later_version, NewerPlan, "later version of this program"),
    (of_a_later_version_with_triggers, NewerPlan, "later version of this program"),
    (of_a_later_standard, NewerPlan, "later version of its standard"),
    (without_a_version, DamagedPlan, "does not say its version"),
    (with_a_version_that_is_no_number, DamagedPlan, "does not say its version"),
    (with_a_version_without_end, DamagedPlan, "does not say its version"),
    (with_a_trigger, HostilePlan, "runs by itself"),
    (with_a_trigger_on_a_kind, HostilePlan, "runs by itself"),
    (with_a_trigger_that_looks_like_ours, HostilePlan, "runs by itself"),
    (with_a_view, HostilePlan, "a view"),
    (with_a_view_for_a_table, HostilePlan, "could do harm"),
    (with_a_virtual_table, HostilePlan, "a strange sort"),
    (with_an_index_of_its_own, HostilePlan, "a strange sort"),
    (with_a_column_that_computes, HostilePlan, "computes by itself"),
    (with_a_number_that_is_none, DamagedPlan, "is damaged"),
    (with_a_log_that_was_changed, DamagedPlan, "is damaged"),
    (with_a_log_that_is_no_log, DamagedPlan, "is damaged"),
]


@pytest.mark.parametrize(
    ("spoil", "problem", "words"), [pytest.param(*r, id=r[0].__name__) for r in REFUSED]
)
def test_a_file_that_is_no_good_plan_is_refused_in_a_sentence(
    path: Path, spoil: Callable[[Path], None], problem: type[FileProblem], words: str
) -> None:
    spoil(path)
    before = path.read_bytes()
    for opened in (PlanFile.open, read_plan):
        with pytest.raises(problem) as caught:
            opened(path)
        text = str(caught.value)
        assert words in text
        assert "plan.gpkg" in text
        assert "It was not opened" in text
        assert text.endswith(".")
        assert "\n" not in text
    assert path.read_bytes() == before
    assert sorted(p.name for p in path.parent.iterdir()) == ["plan.gpkg"]


def test_what_is_not_there_is_told(tmp_path: Path) -> None:
    for opened in (PlanFile.open, read_plan, read_history, verify):
        with pytest.raises(NotThere, match="There is no file"):
            opened(tmp_path / "nothing.gpkg")
    with pytest.raises(NotAPlan, match="is a folder"):
        read_plan(tmp_path)


def test_flipped_bytes_are_noticed_or_harmless(good: Path, tmp_path: Path) -> None:
    whole = good.read_bytes()
    wanted = read_plan(good)
    chance = random.Random(7)  # noqa: S311  # which bytes is no secret
    path = tmp_path / "flipped.gpkg"
    noticed = 0
    times = 200 if THOROUGH else 25
    for _ in range(times):
        at = chance.randrange(len(whole) - 32)
        path.write_bytes(whole[:at] + chance.randbytes(32) + whole[at + 32 :])
        try:
            report = verify(path)
            noticed += not report.whole
            if report.whole:
                assert read_plan(path) == wanted
        except FileProblem:
            noticed += 1
    assert noticed > times // 2  # SQLite by itself notices a fifth


def test_one_flipped_letter_is_noticed(path: Path) -> None:
    whole = path.read_bytes()
    text = "Species: ŵłß".encode()
    places = [at for at in range(len(whole)) if whole.startswith(text, at)]
    assert len(places) >= 2  # in a table and, again, in the log
    for at in places:
        path.write_bytes(whole[:at] + b"s" + whole[at + 1 :])
        with closing(sqlite3.connect(path)) as con:
            assert con.execute("PRAGMA quick_check").fetchall() == [("ok",)]
        assert not verify(path).whole


def shells(depth: int, form: int) -> bytes:
    """Return parts within parts within parts, as a blob."""
    wkb = struct.pack("<BII", 1, form, 1) * depth + struct.pack("<BIdd", 1, 1, 456e3, 218e3)
    return b"GP\x00\x03" + struct.pack("<i4d", 27700, 0, 0, 0, 0) + wkb


BLOBS = [
    pytest.param(shells(200_000, 7), id="collections within collections"),
    pytest.param(shells(200_000, 4), id="points within points"),
    pytest.param(shells(200_000, 6), id="areas within areas"),
    pytest.param(shells(0, 1)[:-3], id="cut off"),
    pytest.param(b"", id="nothing"),
    pytest.param(b"GP", id="a magic word"),
    pytest.param(b"\x00" * 5_000_000, id="zeros"),
    pytest.param(
        shells(0, 1)[:40] + struct.pack("<BII", 1, 2, 0x7FFF_FFFF), id="more corners than bytes"
    ),
    pytest.param(
        shells(0, 1)[:40] + struct.pack("<BIII", 1, 3, 0xFFFF_FFFF, 0), id="rings without end"
    ),
    pytest.param(
        shells(0, 1)[:40] + struct.pack("<BIdd", 1, 1, float("nan"), 0.0), id="nowhere"
    ),
    pytest.param(
        shells(0, 1)[:40] + struct.pack("<BIdd", 1, 1, float("inf"), 0.0), id="endless"
    ),
]


@pytest.mark.parametrize("blob", BLOBS)
def test_a_shape_made_to_do_harm_is_an_odd_row(path: Path, blob: bytes) -> None:
    con = writing(path)
    con.execute("INSERT INTO tree (geom, number) VALUES (?, 'X')", (blob,))
    con.close()
    with PlanFile.open(path) as file:
        assert any("table tree" in remark for remark in file.remarks)
        assert all(change.after is None for change in file.changed_elsewhere)


def test_a_shape_made_to_do_harm_in_the_log_is_refused(path: Path) -> None:
    con = writing(path)
    (changes,) = con.execute("SELECT changes FROM history").fetchone()
    bomb = shells(200_000, 7)[40:].hex()
    start = changes.index('"shape":"') + len('"shape":"')
    end = changes.index('"', start)
    con.execute("UPDATE history SET changes = ?", (changes[:start] + bomb + changes[end:],))
    con.execute(A_ROW_TOO)
    con.close()
    with pytest.raises(DamagedPlan):
        read_plan(path)


def test_more_rows_than_any_plan_has_are_refused(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(reading, "MOST_ROWS", 10)
    with pytest.raises(DamagedPlan, match="more rows"):
        read_plan(path)


def test_nothing_can_be_attached(path: Path) -> None:
    con = writing(path)
    for sql in (
        f"ATTACH '{path}' AS other",
        "PRAGMA writable_schema = ON",
        "SELECT load_extension('x')",
    ):
        with pytest.raises(sqlite3.DatabaseError, match=r"not authorized|prohibited"):
            con.execute(sql)
    con.close()


def test_a_picture_that_is_not_what_it_was_is_told(path: Path) -> None:
    with PlanFile.open(path) as file:
        digest = file.add(b"a scan", content_type="image/png", name="1962.png")
        file.save()
    assert read_media(path, digest) == b"a scan"
    done(path, "UPDATE media SET data = CAST('a scam' AS BLOB)")
    with pytest.raises(DamagedPlan, match="damaged or gone"):
        read_media(path, digest)
    with pytest.raises(DamagedPlan, match="damaged or gone"):
        read_media(path, "0" * 64)
    assert any("1962.png” is damaged" in f for f in verify(path).findings)


def test_any_spoilt_copy_is_either_read_or_refused(good: Path, tmp_path: Path) -> None:
    whole = good.read_bytes()
    chance = random.Random(11)  # noqa: S311  # which bytes is no secret
    path = tmp_path / "spoilt.gpkg"
    for _ in range(300 if THOROUGH else 20):
        kind = chance.randrange(3)
        at = chance.randrange(len(whole) - 600)
        if kind == 0:
            spoilt = whole[:at]
        elif kind == 1:
            spoilt = whole[:at] + chance.randbytes(500) + whole[at + 500 :]
        else:
            spoilt = whole[:at] + whole[at + chance.randrange(1, 500) :]
        path.write_bytes(spoilt)
        for opened in (read_plan, read_history):
            with suppress(FileProblem):  # any other error fails the test
                opened(path)
