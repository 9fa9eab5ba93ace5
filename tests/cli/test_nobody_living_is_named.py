"""What is recorded of living people stays out of everything that leaves the program."""

from dataclasses import replace
from pathlib import Path
from typing import Any

import pypdfium2
import pytest
from strategies import one_of_each

from plan_editor.edits.basic import Add, Describe, Remove
from plan_editor.edits.chosen import called_on
from plan_editor.plan.detail import Value
from plan_editor.plan.document import Document
from plan_editor.plan.item import Item
from plan_editor.storage.plan_file import PlanFile
from plan_editor.survey.grids.grid import Grid

LIVING = "Quixworthy"
TEXTS = (Value.TEXT, Value.LONG_TEXT)


def private(item: Item[Any]) -> dict[str, str]:
    told = [d for d in item.kind.entries() if d.about.private and d.value in TEXTS]
    return {d.name: f"{LIVING} {d.name}" for d in told}


@pytest.fixture
def where(tmp_path: Path) -> Path:
    """A plan with one item of each kind, every private text of which names somebody living."""
    path = tmp_path / "private.gpkg"
    with PlanFile.create(path, name="St Elfric", grid=Grid()) as file:
        document = Document(file.plan, journal=file)
        items = [
            replace(i, details=replace(i.details, **private(i)))
            for i in one_of_each().items.values()
        ]
        assert sum(bool(private(i)) for i in items) >= 4
        document.apply(Add(tuple(items)))
        for item in filter(private, items):
            alone = replace(item, id=f"{'f' * 24}{item.id[24:]}", number="")
            document.apply(Add((alone,)))
            called = called_on(document.plan, (alone.id,))
            change = tuple(private(item).items())[:1]
            document.apply(
                Describe(ids=(alone.id,), details=((change[0][0], ""),), called=called)
            )
            document.apply(Remove(ids=(alone.id,), called=called))
        file.save()
    return path


def test_no_sheet_no_drawing_and_no_answer_names_them(where, tmp_path, said):
    lines = (
        ("show", where),
        ("clearance", where),
        ("base", "list", where),
        ("history", where),
        ("verify", where),
        ("sheet", "mowing", where, "-o", tmp_path / "m.pdf"),
        ("sheet", "ground", where, "-o", tmp_path / "g.pdf"),
        ("dxf", "write", where, tmp_path / "p.dxf"),
        ("compare", where, tmp_path / "bare.gpkg"),
        ("inspect", "due", where, "--on", "2027-01-01"),
        ("schedule", "dues", where, "-o", tmp_path / "dues.csv"),
        ("schedule", "reservations", where, "-o", tmp_path / "reservations.csv"),
        ("calendar", where, "-o", tmp_path / "due.ics"),
        ("sheet", "month", where, "-o", tmp_path / "month.pdf"),
    )
    PlanFile.create(tmp_path / "bare.gpkg", name="St Elfric", grid=Grid()).close()
    for words in lines:
        for form in ([], ["--json"]):
            code, out, err = said(*words, *form)
            assert code < 2  # the base plan of the strategies has no bytes: verify says so
            assert LIVING not in out + err
    for name in ("p.dxf", "dues.csv", "reservations.csv", "due.ics"):
        assert LIVING not in (tmp_path / name).read_text("utf-8").replace("\n ", "")
    for sheet in ("m.pdf", "g.pdf", "month.pdf"):
        document = pypdfium2.PdfDocument(tmp_path / sheet)
        texts = [page.get_textpage().get_text_range() for page in document]
        document.close()
        assert any("St Elfric" in text for text in texts)
        assert not any(LIVING in text for text in texts)
