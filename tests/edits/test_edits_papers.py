"""Photographs and papers added to a thing."""

import pytest
from strategies import kind_of, plain

from plan_editor.edits.papers import add_papers, paper_item
from plan_editor.errors import EditRefused
from plan_editor.plan.document import Document
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import plan_of
from plan_editor.records.papers import is_photograph, papers_of

STONE = plain(kind_of("memorial"), 1)
FIRST = paper_item("a" * 64, content_type="image/jpeg", file="one.jpg", date="2025-05-01")
SECOND = paper_item("b" * 64, content_type="image/jpeg", file="two.jpg", date="2026-05-01")


def test_papers_come_with_what_they_are_of_and_go_with_one_undo() -> None:
    document = Document(plan_of([STONE]))
    document.apply(add_papers(document.plan, STONE.id, (FIRST, SECOND)))
    found = papers_of(document.plan, STONE.id)
    assert [p.id for p in found] == [SECOND.id, FIRST.id]
    assert all(map(is_photograph, found))
    assert document.undo_title == "Add 2 papers to a memorial"
    document.undo()
    assert not papers_of(document.plan, STONE.id)


def test_a_paper_of_a_paper_is_refused() -> None:
    document = Document(plan_of([STONE]))
    document.apply(add_papers(document.plan, STONE.id, (FIRST,)))
    with pytest.raises(EditRefused, match="cannot belong to a paper"):
        document.apply(add_papers(document.plan, FIRST.id, (SECOND,)))


def test_a_paper_of_something_that_is_gone_is_refused() -> None:
    with pytest.raises(EditRefused):
        Document(plan_of([])).apply(add_papers(plan_of([]), ItemId("f" * 32), (FIRST,)))
