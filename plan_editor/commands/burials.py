"""Burials that are asked for, as lines of a list, and the edit of each one's next step."""

from dataclasses import dataclass, replace
from typing import Any

from plan_editor.commands.register import new_entry
from plan_editor.commands.today import today
from plan_editor.edits.basic import Add
from plan_editor.edits.burials import ChooseSpace, EnterBurial, RecordAsDug, next_number
from plan_editor.edits.chosen import called_on
from plan_editor.errors import CannotUse
from plan_editor.plan.detail import Detail
from plan_editor.plan.document import Document
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.kind import kind_of_ours
from plan_editor.plan.plan import Plan
from plan_editor.records.requests import Next, Standing, requests_asked, standing_of

CAUTION = (
    "The incumbent says where. A plan cannot show what nobody recorded: probe first, and locate"
    " services. Only competent people dig and shore."
)

STEPS = {
    Next.CHOOSE: "Choose the space",
    Next.DIG: "Record as dug",
    Next.ENTER: "Enter in the register",
}
"""What the button of each step says."""

_FIELDS = {
    Next.CHOOSE: (("request", "grave"), ("request", "reservation")),
    Next.DIG: (("grave", "dug"), ("grave", "depth_m")),
    Next.ENTER: (
        ("burial", "buried"),
        ("burial", "minister"),
        ("burial", "book"),
        ("burial", "depth_m"),
    ),
}
"""What is asked for each step: fields of forms, by kind and detail."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RequestLine:
    """A request in the list: the dead, the day of the burial, what is to be done next."""

    item: ItemId
    name: str
    day: str
    next: str


def request_lines(plan: Plan) -> tuple[RequestLine, ...]:
    """Return every request, those with something left to do first."""
    return tuple(_line(told) for told in requests_asked(plan))


def standing(plan: Plan, item: ItemId | None) -> Standing | None:
    """Return how far a request has come; None of what is no request."""
    found = None if item is None else plan.items.get(item)
    if found is None or found.kind.name != "request":
        return None
    return standing_of(plan, found)


def told_of(found: Standing) -> str:
    """Return what a request lacks, and how deep to dig, as a paragraph."""
    depth = "" if found.depth_m is None else f"Dig to {found.depth_m:.2f} m."
    at_hand = "Nothing is lacking." if found.next is not Next.NOTHING else ""
    return " ".join(filter(None, (*(found.lacks or (at_hand,)), depth)))


def new_request() -> tuple[Edit, Item[Any]]:
    """Return the edit that adds a request of today, and the request."""
    _, bare = new_entry(kind_of_ours("request"))
    item = replace(bare, details=replace(bare.details, asked=today()))
    return Add((item,)), item


def step_fields(step: Next) -> tuple[Detail, ...]:
    """Return what is asked for a step."""
    return tuple(_detail(kind, name) for kind, name in _FIELDS[step])


def usual(found: Standing) -> dict[str, Any]:
    """Return what a step's fields hold at first, by their names."""
    details = found.request.details
    match found.next:
        case Next.CHOOSE:
            return {"grave": details.grave, "reservation": details.reservation}
        case Next.DIG:
            return {"dug": today()}
        case Next.ENTER:
            return {"buried": details.wished}
        case Next.NOTHING:
            return {}


def step_note(document: Document, found: Standing) -> str:
    """Return what is to be known before a step is recorded; empty for nothing."""
    if found.next is Next.ENTER:
        return f"The next number of the register is {next_number(document.plan)}."
    if found.next is Next.DIG and found.depth_m is not None:
        return f"By the parish's figures {found.depth_m:.2f} m deep."
    return ""


def step_edit(document: Document, found: Standing, values: dict[str, Any]) -> Edit:
    """Return the edit of a request's next step.

    Args:
        document: the plan.
        found: the request, and what comes next.
        values: by the names of ``step_fields``.

    Raises:
        CannotUse: nothing is left to do.
    """
    wanted = found.request.id
    space = called_on(document.plan, filter(None, (found.request.details.grave,)))
    match found.next:
        case Next.CHOOSE:
            return _choosing(document, wanted, values)
        case Next.DIG:
            return RecordAsDug(
                request=wanted, dug=values["dug"], depth_m=values["depth_m"], called=space
            )
        case Next.ENTER:
            return EnterBurial(
                request=wanted,
                buried=values["buried"],
                minister=values["minister"],
                book=values["book"],
                lid_m=values["depth_m"],
                called=found.request.details.surname or "a burial",
            )
        case Next.NOTHING:
            raise CannotUse("This burial is over. Nothing was recorded.")


def _choosing(document: Document, wanted: ItemId, values: dict[str, Any]) -> Edit:
    space = values["grave"]
    if space is None:
        raise CannotUse("No space was chosen. Write its number, or take one of the list.")
    return ChooseSpace(
        request=wanted,
        space=space,
        reservation=values["reservation"],
        called=called_on(document.plan, (space,)),
    )


def _line(told: Standing) -> RequestLine:
    details = told.request.details
    name = ", ".join(filter(None, (details.surname, details.forenames)))
    over = told.next is Next.NOTHING
    return RequestLine(
        item=told.request.id,
        name=name or "not yet named",
        day=details.wished,
        next=str(details.progress) if over else str(told.next),
    )


def _detail(kind: str, name: str) -> Detail:
    return next(d for d in kind_of_ours(kind).entries() if d.name == name)
