"""The keys: none is left out, on the page and on paper."""

from pathlib import Path

import pytest
from pypdfium2 import PdfDocument

from plan_editor.commands.command import menus
from plan_editor.commands.finding import find
from plan_editor.commands.keys import key_groups
from plan_editor.commands.printing_keys import make_key_sheet
from plan_editor.drafting.tool import tools
from plan_editor.errors import PlanEditorError
from plan_editor.plan.document import Document
from plan_editor.plan.plan import Plan
from plan_editor.session import Session


def test_every_key_of_a_menu_or_a_tool_is_told_once() -> None:
    told = [key for group in key_groups()[:-2] for key, _ in group.keys]
    assert len(set(told)) == len(told)
    assert set(told) == {c.keys for m in menus() for _, c in m.all_commands() if c.keys}
    assert {t.key for t in tools() if t.key and not t.draws} <= set(told)


def test_the_sheet_holds_every_key_and_what_it_does_on_a4(tmp_path: Path) -> None:
    made = make_key_sheet(tmp_path / "keys.pdf")
    with PdfDocument(made.path) as pdf:
        assert made.pages == len(pdf)
        # ISO 216: A4 is 210 by 297 mm; a PDF unit is 1/72 inch
        assert pdf[0].get_size() == pytest.approx((595.28, 841.89), abs=0.01)
        told = (pdf[n].get_textpage().get_text_bounded() for n in range(len(pdf)))
        words = " ".join(" ".join(text.split()) for text in told)
    for group in key_groups():
        assert group.title in words
        for key, does in group.keys:
            assert key in words
            assert does in words


def test_a_sheet_is_not_written_over_a_folder(tmp_path: Path) -> None:
    for out in (tmp_path, Path()):
        with pytest.raises(PlanEditorError, match="Nothing was written"):
            make_key_sheet(out)


def test_a_command_is_found_by_its_words_in_any_order_and_shows_its_key() -> None:
    empty = Session(Document(Plan()), first=tools()[0])
    for typed in ("colours dark", "DARK col", "view dark"):
        assert [f.text for f in find(empty, typed) if f.command] == ["View: Dark colours"]
    assert "Help: Keys   F1" in [f.text for f in find(empty, "keys")]
    assert not find(empty, "dark helpless")


def test_a_command_that_cannot_be_run_now_is_found_all_the_same() -> None:
    empty = Session(Document(Plan()), first=tools()[0])
    (found,) = (f for f in find(empty, "another kind") if "Make it" in f.text)
    assert found.text.endswith("not possible now")
    assert (found.command, found.items) == (None, ())
