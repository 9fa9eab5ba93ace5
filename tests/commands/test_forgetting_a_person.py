"""Forgetting somebody: not a byte of name, address or telephone is left where one can reach."""

import errno
import gzip
import io
import sqlite3
import zipfile
import zlib
from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from threading import Thread
from typing import Any

import pytest

from plan_editor.commands import forgetting as forgetting_all
from plan_editor.commands.before_forgetting import before_forgetting, listed
from plan_editor.commands.forgetting import begin, finish, forget, people, person_named
from plan_editor.commands.history import take_back
from plan_editor.edits.basic import Add, Describe, Remove
from plan_editor.errors import CannotUse, ChangedElsewhere, NoRoom, NotAllowed
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import (
    grave,
    inspection,
    memorial,
    owner_contact,
    paper,
    reservation,
    tracing,
)
from plan_editor.plan.document import Document
from plan_editor.plan.item import Item, new_item
from plan_editor.plan.plan import Plan
from plan_editor.storage import copies, forgetting, saving, working_copy
from plan_editor.storage.leftovers import leftovers
from plan_editor.storage.loading import read_plan
from plan_editor.storage.log import read_history
from plan_editor.storage.past import as_known, moment
from plan_editor.storage.plan_file import PlanFile
from plan_editor.storage.verifying import verify
from plan_editor.storage.working_copy import folder as working_folder
from plan_editor.survey.grids.grid import Grid

NAME, OTHER_NAME = "Zqwimbly Vexhollow", "Zqwimbly Marrowfen"
ADDRESS = "9 Pxlontree Lane"
TELEPHONE = "07700 900417"  # of the numbers that Ofcom keeps for drama
EMAIL = "vexhollow@example.org"
TOKENS = ("Vexhollow", "Zqwimbly", "Marrowfen", "Pxlontree", "07700 900417", "900417", EMAIL)

STONE = new_item(
    memorial.KIND,
    Rectangle(east=2.0, north=1.5, width=0.8, length=0.3, bearing_deg=7.5),
    number="M 1",
)
PLOT = new_item(
    grave.KIND,
    Rectangle(east=4.0, north=1.5, width=1.2, length=2.7, bearing_deg=7.5),
    number="A 1",
)
KEEPER = new_item(
    owner_contact.KIND,
    details=owner_contact.OwnerContactDetails(
        name=OTHER_NAME, address=ADDRESS, telephone=TELEPHONE, email=EMAIL, memorial=STONE.id
    ),
)
NEIGHBOUR = new_item(
    owner_contact.KIND, details=owner_contact.OwnerContactDetails(name="Quorn Ablewick")
)
KEPT = new_item(
    reservation.KIND,
    details=reservation.ReservationDetails(
        grave=PLOT.id, faculty="F 12", held_for=NAME, contact=KEEPER.id, remarks="by letter"
    ),
)
LETTER = new_item(
    tracing.KIND,
    details=tracing.TracingDetails(
        target=STONE.id, date="2026-02-03", contact=KEEPER.id, says=f"Dear {NAME}"
    ),
)
FIRST = datetime(2026, 1, 5, 10, tzinfo=UTC)


def scanned(name: str) -> bytes:
    """Return a paper of which only the inflated bytes name somebody."""
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as written:
        written.writestr("letter.txt", f"From {name}, {ADDRESS}. " * 40)
    return packed.getvalue()


def paper_of(file: PlanFile, of: Item[Any], content: bytes, *, personal: bool) -> Item[Any]:
    digest = file.add(content, content_type="application/zip", name=f"{NAME}.zip")
    told = paper.PaperDetails(
        target=of.id, says=f"letter of {NAME}", personal=personal, digest=digest
    )
    return new_item(paper.KIND, details=told)


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Return a plan with somebody on it, saved often, with dated copies and a crash."""
    path, dated = tmp_path / "plan.gpkg", tmp_path / "dated"
    dated.mkdir()
    grid = Grid(crs="EPSG:27700", east=456_000.0, north=218_000.0)
    with PlanFile.create(path, name="St Elfric", grid=grid) as file:
        file.keep_copies_in(str(dated))
        document = Document(file.plan, journal=file, author="churchwarden")
        document.apply(Add((STONE, PLOT, NEIGHBOUR)))
        document.apply(Add((KEEPER, KEPT, LETTER)))
        document.apply(Add((paper_of(file, KEEPER, scanned(NAME), personal=False),)))
        gone = paper_of(file, KEPT, scanned(OTHER_NAME), personal=True)
        document.apply(Add((gone, paper_of(file, LETTER, scanned("Z"), personal=True))))
        file.save()
        document.apply(Describe(ids=(KEEPER.id,), details=(("name", NAME),)))
        document.apply(Describe(ids=(PLOT.id,), details=(("remarks", "by the yew"),)))
        document.undo()
        document.apply(Remove(ids=(gone.id,)))
        file.save()
        dated_copy = next(iter(dated.iterdir()))
        dated_copy.rename(dated / "plan 2026-01-05 100000.gpkg")
        path.with_name("plan replaced 2026-01-06 100000.gpkg").write_bytes(path.read_bytes())
        path.with_name("plan.gpkg.tmp").write_bytes(path.read_bytes()[:400_000])
    crashed = PlanFile.open(path)
    Document(crashed.plan, journal=crashed).apply(
        Describe(ids=(KEPT.id,), details=(("remarks", f"{NAME} rang"),))
    )
    left_behind(crashed)
    return path


def left_behind(file: PlanFile) -> None:
    """Leave a working copy as a crash does: its files stay, its lock is free."""
    file._copy.close()
    file._working.let_go()
    assert file._lock is not None
    file._lock.release()


def inflated(content: bytes) -> Iterator[bytes]:
    """Return bytes, and what every packed stream in them holds."""
    yield content
    for start in _all(content, b"PK\x03\x04"):
        with_names = content[start + 26 : start + 30]
        skip = int.from_bytes(with_names[:2], "little") + int.from_bytes(
            with_names[2:], "little"
        )
        try:
            yield zlib.decompressobj(-15).decompress(content[start + 30 + skip :])
        except zlib.error:
            continue
    for start in _all(content, b"\x1f\x8b\x08"):
        try:
            yield gzip.decompress(content[start:])
        except (OSError, EOFError, zlib.error):
            continue


def _all(content: bytes, mark: bytes) -> Iterator[int]:
    start = content.find(mark)
    while start >= 0:
        yield start
        start = content.find(mark, start + 1)


def traces(*folders: Path) -> set[tuple[str, str]]:
    """Return every file below these folders that holds a token, as UTF-8 or UTF-16."""
    return {
        (path.name, token)
        for folder in folders
        for path in folder.rglob("*")
        if path.is_file()
        for content in inflated(path.read_bytes())
        for token in TOKENS
        for coded in (token.encode(), token.encode("utf-16-le"))
        if coded.lower() in content.lower()
    }


def forgotten(path: Path) -> None:
    with PlanFile.open(path) as file:
        document = Document(file.plan, journal=file, author="churchwarden")
        done = forget(document, file, person_named(file.plan, NAME))
        assert done.left == ()
        assert (done.papers, done.things, done.look_at) == (2, 2, ())
        assert document.undo_title is None
        assert document.undo() is None
        # while the plan is open: the working copy and its -wal too
        assert traces(path.parent, working_folder()) == set()
        assert not file.unsaved


def test_the_tokens_are_everywhere_before(path: Path) -> None:
    found = {name for name, _ in traces(path.parent)}
    assert found >= {"plan.gpkg", "plan.gpkg.bak", "plan.gpkg.tmp"}
    assert any(name.startswith("plan 2026-01-05") for name in found)
    assert any(name.startswith("plan replaced") for name in found)
    assert traces(working_folder())
    assert {token for _, token in traces(path.parent)} == set(TOKENS)


def test_no_byte_names_the_person_afterwards(path: Path) -> None:
    forgotten(path)
    assert traces(path.parent, working_folder()) == set()
    assert not path.with_name("plan.gpkg.tmp").exists()


def test_every_copy_is_whole_afterwards_and_holds_all_the_rest(path: Path) -> None:
    forgotten(path)
    for file in path.parent.rglob("plan*"):
        assert verify(file).findings == (), file
        plan = read_plan(file)
        assert {STONE.id, PLOT.id, NEIGHBOUR.id, KEPT.id, LETTER.id} <= set(plan.items)
        held = plan.items[KEPT.id].details
        assert (held.faculty, held.grave, held.held_for) == ("F 12", PLOT.id, "")
        assert held.contact is None
        assert people(plan) == ((NEIGHBOUR.id, "Quorn Ablewick"),)
    (left,) = leftovers()
    with PlanFile.recover(left) as recovered:
        assert KEEPER.id not in recovered.plan.items


def chain(path: Path) -> list[str]:
    with closing(sqlite3.connect(path)) as con:
        return [d for (d,) in con.execute("SELECT log_digest FROM history ORDER BY number")]


def test_the_chain_keeps_its_links_and_gains_one_that_names_nobody(path: Path) -> None:
    before, titles = chain(path), [line.title for line in read_history(path)]
    forgotten(path)
    after = read_history(path)
    assert chain(path)[:-1] == before
    assert [line.title for line in after] == [*titles, "Forget somebody"]
    assert verify(path).findings == ()


def test_forgetting_cannot_be_taken_back_from_the_log(path: Path) -> None:
    forgotten(path)
    with pytest.raises(CannotUse, match="cannot be brought back"):
        take_back(path, read_plan(path).revision)


def test_days_before_can_still_be_looked_at(path: Path) -> None:
    forgotten(path)
    now = read_plan(path)
    for number in range(now.revision, 0, -1):
        then = as_known(path, now, number)
        assert then.items[STONE.id] == STONE
        if KEEPER.id in then.items:
            assert then.items[KEEPER.id] == replace(
                KEEPER, details=owner_contact.OwnerContactDetails()
            )
            assert then.items[KEPT.id].details.held_for == ""
    first = moment(path, datetime(2100, 1, 1, tzinfo=UTC))
    assert first.number == now.revision


def test_what_another_changed_meanwhile_is_not_written_over(path: Path) -> None:
    with PlanFile.open(path) as file:
        document = Document(file.plan, journal=file)
        with closing(sqlite3.connect(path)) as con, con:
            con.execute("UPDATE plan SET value = 'x' WHERE key = 'save_id'")
        with pytest.raises(ChangedElsewhere):
            forget(document, file, KEEPER.id)
        assert KEEPER.id in document.plan.items


def test_a_copy_that_cannot_be_cleared_is_named(path: Path) -> None:
    backup = path.with_name("plan.gpkg.bak")
    assert backup.exists()
    backup.write_bytes(backup.read_bytes()[:-50_000])
    with PlanFile.open(path) as file:
        document = Document(file.plan, journal=file)
        done = forget(document, file, KEEPER.id)
    assert [str(backup) in words for words in done.left] == [True]
    assert "Not cleared" in done.told()
    assert NAME not in done.told()


def test_where_the_same_name_still_stands_is_said(path: Path) -> None:
    with PlanFile.open(path) as file:
        document = Document(file.plan, journal=file)
        document.apply(Describe(ids=(PLOT.id,), details=(("remarks", f"asked {NAME}"),)))
        done = forget(document, file, KEEPER.id)
        assert done.look_at == ("Grave A 1",)
        with pytest.raises(CannotUse, match="not on the plan any more"):
            forget(document, file, KEEPER.id)


LOOKED = new_item(
    inspection.KIND,
    details=inspection.InspectionDetails(
        target=STONE.id, date="2026-02-01", inspector=NAME, action=f"rang {TELEPHONE}"
    ),
)


def test_what_names_the_person_and_stays_is_told_before(path: Path) -> None:
    with PlanFile.open(path) as file:
        document = Document(file.plan, journal=file)
        assert before_forgetting(file, document.plan, KEEPER.id) == ()
        told = (("inscription", f"In memory of {NAME}"),)
        plain = paper.PaperDetails(target=STONE.id, personal=True)
        named = paper_of(file, STONE, scanned("Z"), personal=True)
        document.apply(Add((LOOKED, named, new_item(paper.KIND, details=plain))))
        document.apply(Describe(ids=(PLOT.id,), details=(("remarks", f"asks at {ADDRESS}"),)))
        document.apply(Describe(ids=(STONE.id,), details=told))
        first = before_forgetting(file, document.plan, KEEPER.id)
        done = forget(document, file, KEEPER.id)
    assert [one.split(": may")[0] for one in first] == [
        "Memorial M 1, “Inscription”",
        "Grave A 1, “Remarks”",
        "Inspection (Memorial M 1), “Inspected by”, “Action taken or wanted”",
        "Photograph or paper (Memorial M 1), “What it shows or says”",
        "Photograph or paper (Memorial M 1)",
    ]
    assert len(done.look_at) == len(first)
    assert NAME not in done.told()


def test_what_was_corrected_before_is_in_no_file_afterwards(path: Path) -> None:
    with PlanFile.open(path) as file:
        document = Document(file.plan, journal=file)
        document.apply(Add((LOOKED,)))
        document.apply(Describe(ids=(PLOT.id,), details=(("remarks", f"asks at {ADDRESS}"),)))
        file.save()
        file.save()
        corrected = (("inspector", ""), ("action", "rang them"))
        document.apply(Describe(ids=(LOOKED.id,), details=corrected))
        document.apply(Describe(ids=(PLOT.id,), details=(("remarks", "asks by letter"),)))
        assert before_forgetting(file, document.plan, KEEPER.id) == ()
        assert ("plan.gpkg.bak", "Pxlontree") in traces(path.parent)
        done = forget(document, file, KEEPER.id)
        assert (done.left, done.look_at) == ((), ())
        assert traces(path.parent, working_folder()) == set()
    assert verify(path).findings == ()
    assert verify(path.with_name("plan.gpkg.bak")).findings == ()
    assert read_plan(path).items[LOOKED.id].details.action == "rang them"


def test_what_the_history_keeps_of_the_dead_is_told_before(path: Path) -> None:
    with PlanFile.open(path) as file:
        document = Document(file.plan, journal=file)
        for words in (f"In memory of {NAME}", "In memory of another"):
            document.apply(Describe(ids=(STONE.id,), details=(("inscription", words),)))
        (told,) = before_forgetting(file, document.plan, KEEPER.id)
        forget(document, file, KEEPER.id)
    kept = as_known(path, read_plan(path), read_plan(path).revision - 2)
    assert kept.items[STONE.id].details.inscription == f"In memory of {NAME}"
    assert told.startswith("Memorial M 1, “Inscription”, as it was once: may name the person")
    assert verify(path).findings == ()


def test_of_many_things_the_first_are_named_and_the_rest_counted() -> None:
    told = listed(tuple(f"Grave {n}: may name the person, and stays." for n in range(15)))
    assert len(told.splitlines()) == 14
    assert told.endswith("And 3 more.")


def test_nobody_is_told_of_who_is_on_the_plan_no_more(path: Path) -> None:
    with PlanFile.open(path) as file:
        assert before_forgetting(file, file.plan, new_item(owner_contact.KIND).id) == ()


def test_a_person_is_found_by_name_or_id_and_two_alike_are_told() -> None:
    document = Document(Plan())
    document.apply(Add((STONE, KEEPER, NEIGHBOUR)))
    plan = document.plan
    assert person_named(plan, f" {KEEPER.id} ") == KEEPER.id
    assert person_named(plan, "quorn  ablewick") == NEIGHBOUR.id
    with pytest.raises(CannotUse, match="no owner of that name"):
        person_named(plan, "Nobody")
    document.apply(Add((replace(NEIGHBOUR, id=new_item(owner_contact.KIND).id),)))
    with pytest.raises(CannotUse, match="2 owners bear that name"):
        person_named(document.plan, "Quorn Ablewick")


def test_a_person_whom_only_the_log_of_a_copy_knows_is_cleared_there_too(path: Path) -> None:
    before = path.with_name("plan replaced 2026-01-07 100000.gpkg")
    before.write_bytes(path.read_bytes())
    with PlanFile.open(before) as file:
        file.keep_copies_in("")
        document = Document(file.plan, journal=file)
        told = (("contact", None), ("held_for", f"for {NAME}"))
        document.apply(Describe(ids=(KEPT.id,), details=told))
        document.apply(Describe(ids=(LETTER.id,), details=(("contact", None), ("says", ""))))
        papers = [p.id for p in file.plan.of(paper.KIND)]
        document.apply(Remove(ids=(*papers, KEEPER.id)))
        file.save()
    before.with_name(f"{before.name}.bak").unlink()
    forgotten(path)
    assert verify(before).findings == ()
    assert read_plan(before).items[KEPT.id].details.held_for == ""


def test_a_copy_that_another_program_changed_is_left_and_named(path: Path) -> None:
    backup = path.with_name("plan.gpkg.bak")
    with closing(sqlite3.connect(backup)) as con, con:
        con.execute("UPDATE reservation SET faculty = 'F 99'")
    with PlanFile.open(path) as file:
        done = forget(Document(file.plan, journal=file), file, KEEPER.id)
    assert [str(backup) in w and "another program" in w for w in done.left] == [True]


def test_a_copy_from_before_the_person_is_left_as_it_is(path: Path) -> None:
    early = path.with_name("plan replaced 2026-01-01 100000.gpkg")
    with PlanFile.create(early, name="St Elfric", grid=Grid()):
        pass
    before = early.read_bytes()
    forgotten(path)
    assert early.read_bytes() == before


def test_a_disk_that_fails_leaves_everybody_where_they_are(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object) -> bool:
        raise OSError(errno.ENOSPC, "no room")

    with PlanFile.open(path) as file:
        document = Document(file.plan, journal=file)
        monkeypatch.setattr(forgetting, "clear", full)
        with pytest.raises(NoRoom, match="Nobody was forgotten"):
            forget(document, file, KEEPER.id)
        assert document.plan.items[KEEPER.id].details.name == NAME
        monkeypatch.undo()
        monkeypatch.setattr(saving, "put_in_place", full)
        with pytest.raises(NotAllowed, match=r"remove plan\.gpkg\.bak"):
            forget(document, file, KEEPER.id)


def nobody_may_save(file: PlanFile) -> bool:
    """Return whether a Save in another thread would have to wait."""
    got: list[bool] = []

    def attempt() -> None:
        got.append(file._saving.acquire(blocking=False))
        if got[0]:
            file._saving.release()

    other = Thread(target=attempt)
    other.start()
    other.join()
    return not got[0]


def test_no_save_comes_between_the_log_and_the_last_copy(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    seen: list[tuple[str, bool]] = []

    def watched(name: str) -> None:
        does = getattr(forgetting_all, name)

        def step(*arguments: Any, **rest: Any) -> Any:
            seen.append((name, nobody_may_save(file)))
            return does(*arguments, **rest)

        monkeypatch.setattr(forgetting_all, name, step)

    for name in ("clear", "save_over", "clear_copies"):
        watched(name)
    with PlanFile.open(path) as file:
        forget(Document(file.plan, journal=file), file, KEEPER.id)
        assert not nobody_may_save(file)
    assert seen == [("clear", True), ("save_over", True), ("clear_copies", True)]


def test_a_save_that_was_asked_for_meanwhile_brings_nobody_back(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    does, waiting = forgetting_all.clear, []

    def while_it_goes_on(*arguments: Any) -> Any:
        waiting.append(Thread(target=file.save))
        waiting[0].start()
        return does(*arguments)

    monkeypatch.setattr(forgetting_all, "clear", while_it_goes_on)
    with PlanFile.open(path) as file:
        done = forget(Document(file.plan, journal=file), file, KEEPER.id)
        waiting[0].join()
        assert done.left == ()
        assert path.with_name("plan.gpkg.bak").exists()
    assert traces(path.parent, working_folder()) == set()


@pytest.mark.parametrize(
    ("where", "name"),
    [
        (working_copy, "left_behind"),
        (working_copy, "held"),
        (working_copy, "new_working_copy"),
        (copies, "dated"),
    ],
    ids=lambda one: one if isinstance(one, str) else "",
)
@pytest.mark.parametrize("error", [PermissionError(errno.EACCES, "no"), ValueError("odd")])
def test_what_goes_wrong_after_the_log_is_told_and_puts_nobody_back(
    path: Path, monkeypatch: pytest.MonkeyPatch, where: Any, name: str, error: Exception
) -> None:
    def fails(*_: object) -> None:
        raise error

    with PlanFile.open(path) as file:
        document = Document(file.plan, journal=file)
        begun = begin(document, file, KEEPER.id)
        monkeypatch.setattr(where, name, fails)
        done = finish(file, begun)
        assert isinstance(done, forgetting_all.Forgotten)
        assert done.left
        assert all("The person was not forgotten there." in words for words in done.left)
        assert not file.unsaved
    assert KEEPER.id not in read_plan(path).items
    assert NAME.encode() not in path.read_bytes()


def test_a_working_copy_that_cannot_be_written_anew_is_told_and_puts_nobody_back(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(_: object) -> bool:
        raise sqlite3.OperationalError("database or disk is full")

    monkeypatch.setattr(forgetting, "rebuild", full)
    with PlanFile.open(path) as file:
        done = forget(Document(file.plan, journal=file), file, KEEPER.id)
    assert "Close the plan now" in done.left[-1]
    assert NAME.encode() not in path.read_bytes()


def test_another_window_that_shows_the_plan_is_told(path: Path) -> None:
    with PlanFile.open(path, read_only=True) as other, PlanFile.open(path) as file:
        done = forget(Document(file.plan, journal=file), file, KEEPER.id)
        (told,) = done.left
        assert told.startswith(f"{other.working_copy}: Another window shows this plan")
    assert traces(path.parent, working_folder()) == set()


def test_a_folder_of_dated_copies_that_is_not_there_is_told(path: Path) -> None:
    dated = path.with_name("dated")
    dated.rename(path.with_name("elsewhere"))
    with PlanFile.open(path) as file:
        done = forget(Document(file.plan, journal=file), file, KEEPER.id)
    assert len(done.left) == 1
    assert done.left[0].startswith(f"{dated}: the folder of dated copies cannot be reached")
