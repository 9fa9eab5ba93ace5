"""Entries of the register matched with graves."""

from dataclasses import replace

import pytest

from plan_editor.edits.basic import Describe
from plan_editor.edits.matches import AcceptMatches, Match
from plan_editor.errors import EditRefused
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import burial, grave, memorial
from plan_editor.kinds.burial import Belief, BurialDetails
from plan_editor.plan.document import Document
from plan_editor.plan.item import ItemId, new_item
from plan_editor.plan.plan import plan_of

PLACE = Rectangle(east=0, north=0, width=1.2, length=2.4)
C14 = new_item(grave.KIND, PLACE, number="C 14")
C15 = new_item(grave.KIND, replace(PLACE, east=1.5), number="C 15")
STONE = new_item(memorial.KIND, replace(PLACE, length=0.15), number="C 14")
ENTRY = new_item(burial.KIND, details=BurialDetails(surname="Ibbotson"))
OTHER = new_item(burial.KIND, details=BurialDetails(surname="Jagger"))


@pytest.fixture
def document() -> Document:
    return Document(plan_of((C14, C15, STONE, ENTRY, OTHER)))


def test_several_entries_are_matched_in_one_step_that_undo_takes_back(
    document: Document,
) -> None:
    sure = Match(entry=ENTRY.id, grave=C14.id)
    guess = Match(entry=OTHER.id, grave=C14.id, belief=Belief.DOUBTFUL)
    document.apply(AcceptMatches((sure, guess)))
    kept = document.plan.items
    assert (kept[ENTRY.id].details.grave, kept[ENTRY.id].details.belief) == (C14.id, "probable")
    assert (kept[OTHER.id].details.grave, kept[OTHER.id].details.belief) == (C14.id, "doubtful")
    assert document.undo_title == "Match 2 entries with the ground"
    document.undo()
    assert document.plan.items[ENTRY.id] == ENTRY


def test_nobody_dead_is_named_in_the_title_of_one() -> None:
    one = AcceptMatches((Match(entry=ENTRY.id, grave=C14.id),))
    assert one.title == "Match an entry with the ground"


@pytest.mark.parametrize(
    ("matches", "says"),
    [
        ((Match(entry=ENTRY.id, grave=STONE.id),), "Nobody is buried in Memorial C 14"),
        ((Match(entry=C15.id, grave=C14.id),), "no entry of the burial register"),
        ((Match(entry=ENTRY.id, grave=ItemId("gone")),), "no longer on the plan"),
        (
            (Match(entry=ENTRY.id, grave=C14.id), Match(entry=ENTRY.id, grave=C15.id)),
            "matched with two graves",
        ),
    ],
)
def test_what_makes_no_sense_is_refused(
    document: Document, matches: tuple[Match, ...], says: str
) -> None:
    with pytest.raises(EditRefused, match=says):
        document.apply(AcceptMatches(matches))
    assert document.plan.items[ENTRY.id] == ENTRY


def test_an_entry_that_has_a_grave_by_now_keeps_it(document: Document) -> None:
    document.apply(Describe(ids=(ENTRY.id,), details=(("grave", C15.id),)))
    with pytest.raises(EditRefused, match="belongs to Grave C 15 already"):
        document.apply(AcceptMatches((Match(entry=ENTRY.id, grave=C14.id),)))
