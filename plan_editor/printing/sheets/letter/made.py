"""Make a letter to the family of a stone: sender, address, words, room to sign."""

from dataclasses import dataclass
from functools import partial
from typing import Any

from plan_editor.drawing.dates import in_words
from plan_editor.drawing.panel import Panel, stacked
from plan_editor.errors import CannotPrint
from plan_editor.kinds import owner_contact
from plan_editor.kinds.owner_contact import OwnerContactDetails
from plan_editor.kinds.tracing import Step
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.plan import Plan
from plan_editor.printing.sheet import Asked, Page, Printed, Supplied
from plan_editor.printing.usual import UNNAMED, remarks_on
from plan_editor.printing.worded_page import (
    Lettering,
    column_of,
    filled,
    fitted,
    lines_to_write_on,
    paper_of,
    remarks_of,
    text_lines,
)
from plan_editor.records.days import last_day
from plan_editor.records.notice_words import blanks, stone_called, stone_of, terms
from plan_editor.records.tracing import Owner, owners_of
from plan_editor.records.wordings import Worded, wording_named

_SIZES = Lettering(heading=4.6, body=4.2)
_LEFT, _RIGHT, _TOP, _LOW = 25.0, 20.0, 18.0, 18.0
_ADDRESS_TOP, _ADDRESS_WIDE, _ADDRESS_LINES = 52.0, 80.0, 5
"""Where the window of a DL envelope leaves an address to be seen; common practice."""
_ADDRESS_HIGH, _SENDER_HIGH = 35.0, 80.0
_DATE_TOP, _WORDS_TOP = 90.0, 104.0
_SENDER_LEFT = 120.0
_SIGNED = 24.0
_APART = 6.5
_NOT_NAMED = (
    "Name and address are left to be written in. Ask for the names of living people to have"
    " them printed."
)
_SEVERAL = "{count} people answer for it: choose one of them to have name and address printed."
_UNSURE = "No inspection says that it is unsafe: read the words before they are sent."


@dataclass(frozen=True, slots=True, kw_only=True)
class _To:
    """About which stone, to whom; nobody where names may not stand on it."""

    thing: ItemId | None
    person: OwnerContactDetails | None
    remarks: tuple[str, ...]


def compose(plan: Plan, asked: Asked, supplied: Supplied) -> Printed:
    """Return the letter.

    Raises:
        CannotPrint: its words are too long for a page, or it is about nothing.
    """
    del supplied
    paper, larger = paper_of(asked)
    wording = wording_named(plan, "letter")
    to = _to(plan, asked)
    told = terms(plan, to.thing, Step.LETTER, last_day(asked.date))
    given = blanks(plan, told, name=_name(to))
    found = filled(wording, given)
    across, high = paper.value
    body = fitted(
        partial(_body, found, across - (_LEFT + _RIGHT) * larger, larger),
        high - (_WORDS_TOP + _LOW) * larger,
        wording.title,
    )
    sender = _sender(given, across - (_SENDER_LEFT + _RIGHT) * larger, larger)
    date = text_lines(in_words(told.date), _ADDRESS_WIDE * larger, _SIZES.body * larger)
    ink = (
        *sender.at(_SENDER_LEFT * larger, high - _TOP * larger),
        *_address(to, larger).at(_LEFT * larger, high - _ADDRESS_TOP * larger),
        *date.at(_LEFT * larger, high - _DATE_TOP * larger),
        *body.at(_LEFT * larger, high - _WORDS_TOP * larger),
    )
    page = Page(width=across, height=high, ink=ink)
    unsure = () if told.found else (_UNSURE,)
    return Printed(
        title=f"{wording.title}: {stone_called(plan, told) or 'a stone'}",
        paper=paper,
        scale=None,
        pages=(page,),
        remarks=(*to.remarks, *unsure, *remarks_of(wording, found), *remarks_on((page,))),
    )


def _to(plan: Plan, asked: Asked) -> _To:
    thing, people = _about(plan, _item(plan, asked))
    if not asked.contacts:
        return _To(thing=thing, person=None, remarks=(_NOT_NAMED,))
    if len(people) != 1:
        many = (_SEVERAL.format(count=len(people)),) if people else ()
        return _To(thing=thing, person=None, remarks=many)
    return _To(thing=thing, person=people[0].details, remarks=())


def _item(plan: Plan, asked: Asked) -> Item[Any]:
    if asked.item is None:
        raise CannotPrint("A letter is about a stone or an owner. Nothing was printed.")
    return plan.items[asked.item]


def _about(plan: Plan, item: Item[Any]) -> tuple[ItemId | None, tuple[Owner, ...]]:
    if item.kind == owner_contact.KIND:
        return stone_of(plan, item.details), (item,)
    return item.id, owners_of(plan, item.id)


def _name(to: _To) -> str:
    return to.person.name.strip() if to.person is not None else ""


def _sender(given: dict[str, str], width: float, larger: float) -> Panel:
    parish = given["parish"] or UNNAMED

    def lines(part: float) -> Panel:
        size = _SIZES.body * larger * part
        named = text_lines(parish, width, size, bold=True)
        return stacked((named, text_lines(given["contact"], width, size)), 0.0)

    return fitted(lines, _SENDER_HIGH * larger, "“Enquiries to”")


def _address(to: _To, larger: float) -> Panel:
    width, person = _ADDRESS_WIDE * larger, to.person
    if person is None:
        return lines_to_write_on(_ADDRESS_LINES, width, _APART * larger)

    def lines(part: float) -> Panel:
        told = f"{person.name}\n{person.address}"
        return text_lines(told, width, _SIZES.body * larger * part)

    return fitted(lines, _ADDRESS_HIGH * larger, "The address")


def _body(found: Worded, room: float, larger: float, part: float) -> Panel:
    by = part * larger
    sizes = Lettering(heading=_SIZES.heading * by, body=_SIZES.body * by)
    words = column_of(found, room, sizes)
    to_sign = lines_to_write_on(1, room / 3, _SIGNED * larger)
    return stacked((words, to_sign), 0.0)
