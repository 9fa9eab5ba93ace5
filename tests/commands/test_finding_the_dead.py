"""The field at the top finds the dead by their name, also where it is spelt otherwise."""

import pytest

from plan_editor.commands.finding import find
from plan_editor.drafting.tools import select
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import burial, grave
from plan_editor.kinds.burial import BurialDetails
from plan_editor.plan.document import Document
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of
from plan_editor.session import Session

C14 = new_item(grave.KIND, Rectangle(east=0, north=0, width=1.2, length=2.4), number="C 14")
JOHN = new_item(
    burial.KIND,
    details=BurialDetails(
        surname="Ibbotson", forenames="Jno", buried="1911-04-16", grave=C14.id
    ),
    number="214",
)


@pytest.mark.parametrize("typed", ["ibbotson", "Ibbo", "ibetson", "Ibbotsen"])
def test_an_entry_is_found_once_and_told_with_its_grave(typed: str) -> None:
    session = Session(Document(plan_of((C14, JOHN))), first=select.TOOL)
    found = [f for f in find(session, typed) if f.items]
    assert [f.items for f in found] == [(JOHN.id,)]
    assert found[0].place == pytest.approx((1.2, 0.6))
    assert found[0].text == "Entry 214, Jno Ibbotson, 1911-04-16 – Grave C 14"
