"""Families of unsafe stones: whom the parish wrote to, which notices it put up, what came."""

from dataclasses import replace
from typing import Any

from stones import memorial_id
from story import id_of, made

from plan_editor.kinds import owner_contact, tracing
from plan_editor.kinds.owner_contact import OwnerContactDetails
from plan_editor.kinds.tracing import Step, TracingDetails
from plan_editor.plan.item import Item, ItemId

_PUBLIC_DAYS = 28
"""The period of public notice of a faculty."""

_WARDENS = "The churchwardens"
_BOOKS = "Baptism registers, 1840 to 1900"


def contacts() -> tuple[Item[Any], ...]:
    """Return the living people who answer for stones; nobody of these names is meant."""
    return (
        _contact("J 7", "Mrs R. Tideswell", "granddaughter", "2 Sluice Cottages, Mere End"),
        _contact("W 11", "Mr D. Whitgift", "son", "Flat 9, Staithe House, Harrowmere"),
    )


def steps() -> tuple[Item[Any], ...]:
    """Return the steps taken, stone by stone."""
    on_stone, public = Step.NOTICE_ON_STONE, Step.NOTICE_PUBLIC
    return (
        _step("C 12", "2026-03-14", TracingDetails(step=on_stone, days=_PUBLIC_DAYS)),
        _step("C 12", "2026-03-20", TracingDetails(step=Step.ENQUIRY, where=_BOOKS)),
        _step("C 12", "2026-05-03", TracingDetails(step=public, days=_PUBLIC_DAYS)),
        _step("E 8", "2026-05-02", TracingDetails(step=on_stone, days=_PUBLIC_DAYS)),
        _step("J 7", "2026-03-23", TracingDetails(step=Step.LETTER, contact=_owner("J 7"))),
        _step("J 7", "2026-04-11", TracingDetails(step=Step.REPLY, contact=_owner("J 7"))),
        _step("W 11", "2026-04-20", TracingDetails(step=Step.LETTER, contact=_owner("W 11"))),
    )


def _owner(stone: str) -> ItemId:
    return id_of(owner_contact.KIND, stone)


def _contact(stone: str, name: str, relation: str, address: str) -> Item[Any]:
    return made(
        owner_contact.KIND,
        stone,
        details=OwnerContactDetails(
            name=name,
            relation=relation,
            address=address,
            memorial=memorial_id(stone),
            agreed="2026-03-23",
        ),
    )


def _step(stone: str, date: str, told: TracingDetails) -> Item[Any]:
    details = replace(told, target=memorial_id(stone), date=date, by=_WARDENS)
    return made(tracing.KIND, f"{stone} {date}", details=details)
