"""The edits of a burial: the space is chosen, dug, and the entry written in the register."""

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from typing import Any

from plan_editor.edits.chosen import chosen
from plan_editor.edits.numbering import NumberRule, rule_from
from plan_editor.errors import EditRefused
from plan_editor.ground.spaces import why_not
from plan_editor.kinds import ashes_plot, burial, grave, request
from plan_editor.kinds.burial import BurialDetails, BurialSort
from plan_editor.kinds.request import Asked, Progress, RequestDetails
from plan_editor.kinds.reservation import Stage
from plan_editor.plan.change import Change
from plan_editor.plan.checks import spoken
from plan_editor.plan.item import Item, ItemId, new_id
from plan_editor.plan.plan import Plan

_ENDED = (Progress.BURIED, Progress.DECLINED, Progress.WITHDRAWN)


@dataclass(frozen=True, slots=True, kw_only=True)
class ChooseSpace:
    """Choose the space for a burial that is asked for.

    Args:
        request: what is asked for.
        space: a grave, vault or ashes plot.
        reservation: that the dead had, if the space is kept under it.
        called: what the title calls the space.
    """

    request: ItemId
    space: ItemId
    reservation: ItemId | None = None
    called: str = "a space"

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Choose {self.called} for a burial"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the request before and after.

        Raises:
            EditRefused: the space cannot be used, is kept for another or full, or has no room
                for what is asked; or the burial is over.
        """
        wanted = _open_request(plan, self.request)
        (space,) = chosen(plan, (self.space,))
        details = replace(
            wanted.details,
            grave=space.id,
            reservation=self.reservation or wanted.details.reservation,
            progress=Progress.AGREED,
        )
        after = replace(wanted, details=details)
        if fault := why_not(plan, space, after):
            raise EditRefused(
                f"{fault} Nothing was changed. Choose another space; or, if it is kept for"
                " this very person, name the reservation in the request first."
            )
        return (Change(wanted, after),)


@dataclass(frozen=True, slots=True, kw_only=True)
class RecordAsDug:
    """Record that the space was dug, when and how deep.

    Args:
        request: what is asked for.
        dug: ISO date.
        depth_m: from the turf to the bottom, in metres; None where nobody measured.
        called: what the title calls the space.
    """

    request: ItemId
    dug: str
    depth_m: float | None = None
    called: str = "a space"

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Record {self.called} as dug"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the space and the request, before and after.

        Ashes that are laid over coffins leave the grave's own digging as it was recorded.

        Raises:
            EditRefused: no day is given, no space is chosen, or the burial is over.
        """
        wanted = _open_request(plan, self.request)
        space = _chosen_space(plan, wanted)
        if not self.dug:
            raise EditRefused(
                "The day of digging is missing. Nothing was changed. Give it:"
                " the grave settles from that day."
            )
        details = replace(wanted.details, progress=Progress.DUG)
        return (
            Change(space, _as_dug(space, wanted.details, self.dug, self.depth_m)),
            Change(wanted, replace(wanted, details=details)),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class EnterBurial:
    """Write the entry of the register, from the request.

    Args:
        request: what was asked for.
        buried: ISO date of the burial.
        minister: who officiated.
        book: which register, where there is more than one.
        number: of the entry; empty for the next of that register.
        lid_m: from the turf to the top of the coffin, in metres.
        id: of the new entry.
        called: what the title calls the dead.
    """

    request: ItemId
    buried: str
    minister: str = ""
    book: str = ""
    number: str = ""
    lid_m: float | None = None
    id: ItemId = field(default_factory=new_id)
    called: str = "a burial"

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Enter {self.called} in the register"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the new entry; the request, the space and a reservation, before and after.

        Raises:
            EditRefused: no day is given, no space is chosen, the burial is over, or the
                register has an entry of that number.
        """
        wanted = _open_request(plan, self.request)
        space = _chosen_space(plan, wanted)
        if not self.buried:
            raise EditRefused(
                "The day of the burial is missing. Nothing was changed. Give it"
                " as the register has it."
            )
        entry = self._entry(plan, wanted.details, space)
        details = replace(wanted.details, progress=Progress.BURIED, burial=entry.id)
        return (
            Change(None, entry),
            Change(wanted, replace(wanted, details=details)),
            *_occupied(space),
            *_used(plan, wanted.details.reservation, space),
        )

    def _entry(
        self, plan: Plan, asked: RequestDetails, space: Item[Any]
    ) -> Item[BurialDetails]:
        number = self.number.strip() or next_number(plan, self.book)
        if any(spoken(b.number) == spoken(number) for b in _of_book(plan, self.book)):
            raise EditRefused(
                f"The register has an entry {number} already. Nothing was"
                " changed. Give another number, or none for the next."
            )
        details = BurialDetails(
            surname=asked.surname,
            forenames=asked.forenames,
            sort=BurialSort(str(asked.sort)),
            abode=asked.abode,
            died=asked.died,
            buried=self.buried,
            age=asked.age,
            minister=self.minister,
            book=self.book,
            grave=space.id,
            belief=burial.Belief.CERTAIN,
            depth_m=self.lid_m,
        )
        return Item(id=self.id, kind=burial.KIND, details=details, number=number)


def next_number(plan: Plan, book: str = "") -> str:
    """Return the number after the highest of a register: ``1`` of an empty one.

    What stands before the count, and noughts in it, go on as in the highest.
    """
    rules = (rule_from(b.number) for b in _of_book(plan, book))
    last = max((r for r in rules if r is not None), key=lambda r: r.first, default=None)
    return (last or NumberRule(first=0)).number(1)


def _of_book(plan: Plan, book: str) -> Iterable[Item[BurialDetails]]:
    said = book.strip().casefold()
    return (b for b in plan.of(burial.KIND) if b.details.book.strip().casefold() == said)


def _open_request(plan: Plan, asked: ItemId) -> Item[RequestDetails]:
    (wanted,) = chosen(plan, (asked,))
    if wanted.kind != request.KIND:
        raise EditRefused(
            f"{wanted.called()} is no burial request. Nothing was changed. Choose the request."
        )
    if wanted.details.progress in _ENDED:
        raise EditRefused(
            f"{wanted.called()} is recorded as “{wanted.details.progress}”."
            " Nothing was changed. Change its progress first, if that is wrong."
        )
    return wanted


def _chosen_space(plan: Plan, wanted: Item[RequestDetails]) -> Item[Any]:
    if wanted.details.grave is None:
        raise EditRefused(
            f"No space is chosen for {wanted.called()}. Nothing was changed."
            " Choose the space first."
        )
    return plan.items[wanted.details.grave]


def _as_dug(
    space: Item[Any], asked: RequestDetails, dug: str, depth_m: float | None
) -> Item[Any]:
    details = replace(space.details, state=type(space.details.state).OCCUPIED)
    over_coffins = asked.sort is Asked.ASHES and space.kind == grave.KIND
    if space.kind in (grave.KIND, ashes_plot.KIND) and not over_coffins:
        depth = space.details.depth_m if depth_m is None else depth_m
        details = replace(details, dug=dug, depth_m=depth)
    if space.kind == grave.KIND and space.details.coffins is None and not over_coffins:
        details = replace(details, coffins=asked.coffins)
    return replace(space, details=details)


def _occupied(space: Item[Any]) -> tuple[Change, ...]:
    state = type(space.details.state).OCCUPIED
    if space.details.state == state:
        return ()
    return (Change(space, replace(space, details=replace(space.details, state=state))),)


def _used(plan: Plan, under: ItemId | None, space: Item[Any]) -> tuple[Change, ...]:
    kept = None if under is None else plan.items[under]
    if kept is None or kept.details.grave != space.id:
        return ()
    after = replace(kept, details=replace(kept.details, stage=Stage.USED))
    return (Change(kept, after),)
