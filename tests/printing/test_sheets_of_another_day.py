"""A sheet printed of another day says which, wherever it names the plan."""

from pathlib import Path

import pypdfium2
import pytest

from plan_editor.commands.making import make_sheet
from plan_editor.commands.past import open_known, open_stood
from plan_editor.printing.sheet import Asked, sheets
from plan_editor.resources import sample

SAMPLE = sample("harrowmere.gpkg")


@pytest.mark.parametrize("sheet", [s.name for s in sheets() if not s.about])
@pytest.mark.parametrize(
    ("opener", "day", "said"),
    [
        (open_known, "2026-02-01", "As known on 1 February 2026: St Elfric"),
        (open_stood, "1950", "As it was at the end of 1950: St Elfric"),
    ],
)
def test_the_day_stands_on_every_sheet(opener, day, said, sheet, tmp_path: Path) -> None:
    out = tmp_path / "sheet.pdf"
    with opener(SAMPLE, SAMPLE, day) as then:
        make_sheet(then.working_copy, sheet, Asked(date="2026-02-01"), out)
    document = pypdfium2.PdfDocument(out)
    texts = [page.get_textpage().get_text_range() for page in document]
    document.close()
    assert said in " ".join(" ".join(texts).split())
