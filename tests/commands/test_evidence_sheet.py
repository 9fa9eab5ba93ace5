"""The sheet of evidence: days, photographs, and the links of the log, on paper."""

import io
import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Any

import pypdfium2
import pytest
from PIL import Image

from plan_editor.commands.chronicles import pictures_of
from plan_editor.commands.making import KeptIn, compose, make_sheet, sheet_named
from plan_editor.edits.basic import Add
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import inspection, memorial, owner_contact, paper
from plan_editor.plan.document import Document
from plan_editor.plan.item import Item, new_item
from plan_editor.plan.plan import Plan
from plan_editor.printing.sheet import Asked, Supplied
from plan_editor.storage.loading import read_plan
from plan_editor.storage.plan_file import PlanFile
from plan_editor.survey.grids.grid import Grid

STONE = new_item(
    memorial.KIND,
    Rectangle(east=2.0, north=1.5, width=0.8, length=0.3, bearing_deg=7.5),
    number="M 1",
)
LOOK = new_item(
    inspection.KIND,
    details=inspection.InspectionDetails(
        target=STONE.id, date="2026-03-14", result=inspection.Result.IMMEDIATE
    ),
)
JANE = new_item(
    owner_contact.KIND,
    details=owner_contact.OwnerContactDetails(
        name="Jane Example", memorial=STONE.id, written="2026-04-01"
    ),
)


def photographed(file: PlanFile, colour: str, **told: Any) -> Item[Any]:
    written = io.BytesIO()
    Image.new("RGB", (80, 40), colour).save(written, "JPEG")
    digest = file.add(written.getvalue(), content_type="image/jpeg", name="stone.jpg")
    details = paper.PaperDetails(
        target=LOOK.id, digest=digest, content_type="image/jpeg", **told
    )
    return new_item(paper.KIND, details=details)


@pytest.fixture
def path(tmp_path: Path) -> Path:
    path = tmp_path / "plan.gpkg"
    with PlanFile.create(path, name="St Elfric", grid=Grid(crs="EPSG:27700")) as file:
        document = Document(file.plan, journal=file, author="warden")
        document.apply(Add((STONE, JANE)))
        document.apply(Add((LOOK,)))
        document.apply(Add((photographed(file, "red", date="2026-03-14"),)))
        shown = photographed(file, "blue", date="2026-03-15", personal=True)
        document.apply(Add((shown,)))
        file.save()
    return path


def printed(path: Path, *, contacts: bool = False) -> tuple[str, int]:
    """Return the words of the sheet, and how many pictures it has."""
    out = path.with_name("evidence.pdf")
    asked = Asked(date="2026-05-01", item=STONE.id, maker="warden", contacts=contacts)
    made = make_sheet(path, "evidence", asked, out)
    with pypdfium2.PdfDocument(out) as document:
        assert len(document) == made.pages
        words = [page.get_textpage().get_text_range() for page in document]
        objects = [o for page in document for o in page.get_objects()]
        pictures = sum(o.type == pypdfium2.raw.FPDF_PAGEOBJ_IMAGE for o in objects)
    return " ".join(" ".join(words).split()), pictures


def test_days_the_head_and_the_links_stand_on_it(path: Path) -> None:
    words, pictures = printed(path)
    assert "14 March 2026 Inspection" in words
    assert "All 4 links of the whole history were worked out again and agree." in words
    with closing(sqlite3.connect(path)) as con:
        digests = [d for (d,) in con.execute("SELECT log_digest FROM history")]
    assert digests[-1] in words.replace(" ", "")
    assert all(d[:16] in words for d in digests)
    assert pictures == 1
    assert "It is no signature" in words


def test_living_people_and_their_pictures_only_where_they_are_asked_for(path: Path) -> None:
    words, _ = printed(path)
    assert "Jane Example" not in words
    assert "15 March" not in words
    words, pictures = printed(path, contacts=True)
    assert "Jane Example" in words
    assert "15 March 2026" in words
    assert pictures == 2


def test_a_history_that_was_changed_is_said_to_be_so(path: Path) -> None:
    with closing(sqlite3.connect(path)) as con, con:
        con.execute("UPDATE history SET title = 'Add nothing' WHERE number = 2")
    words, _ = printed(path)
    assert "DOES NOT AGREE" in words


def test_a_photograph_that_is_gone_is_told_and_the_rest_printed(path: Path) -> None:
    found, remarks = pictures_of(KeptIn(path), ("0" * 64,))
    assert found == {}
    assert [r.startswith("A photograph is left out: ") for r in remarks] == [True]


def test_a_plan_without_history_says_so() -> None:
    document = Document(Plan())
    document.apply(Add((STONE,)))
    sheet = sheet_named("evidence")
    asked = Asked(date="2026-05-01", item=STONE.id)
    (page,) = sheet.compose(document.plan, asked, Supplied()).pages
    assert "There is no history to this plan." in repr(page.ink)
    assert sheet.compose(document.plan, Asked(date="2026-05-01"), Supplied()).pages == ()


def test_what_the_window_shows_is_what_is_printed(path: Path) -> None:
    asked = Asked(date="2026-05-01", item=STONE.id)
    shown = compose(read_plan(path), KeptIn(path), sheet_named("evidence"), asked)
    assert len(shown.pages) == 2
