"""Graves proposed from a scan: found, less those drawn already; and added as one edit."""

from collections.abc import Container, Iterable, Sequence
from pathlib import Path
from typing import Any

from plan_editor.commands.backdrops import scan_on_shelf
from plan_editor.commands.base_plans import BasePlanLine, base_plan_named, lines
from plan_editor.commands.making import KeptIn
from plan_editor.commands.reading import read
from plan_editor.drafting.basis import traced
from plan_editor.drafting.tool import ToolButton, tools
from plan_editor.edits.basic import Add
from plan_editor.errors import CannotUse
from plan_editor.ground.base_plans import Laid, laid
from plan_editor.ground.proposals import SURE_ENOUGH, Proposal, learnt, new_proposals
from plan_editor.plan.item import Basis, Item, ItemId, new_item
from plan_editor.plan.kind import Kind, kind_named, kinds
from plan_editor.plan.media import Kept
from plan_editor.plan.plan import Plan
from plan_editor.scans.finding import Found, rectangles_in
from plan_editor.scans.shelf import Cancelled, Progress

GRAVE = "grave"
"""The kind that is proposed unless another is named."""


def propose(  # noqa: PLR0913  # three, and what is rarely wanted
    plan: Plan,
    media: Kept,
    base_plan: ItemId,
    *,
    kind: str = GRAVE,
    progress: Progress = lambda _: None,
    cancelled: Cancelled = lambda: False,
) -> tuple[Proposal, ...]:
    """Return what a scan seems to show of a kind and the plan has not, the surest first.

    Sizes and bearings are learnt from what is drawn already. It reads nothing but its
    arguments, so it may run in a thread; cancelled it returns nothing.

    Args:
        plan: as it is now.
        media: where the scan's bytes are kept.
        base_plan: the scan.
        kind: the name of a kind whose things are rectangles.
        progress: told the share that is done, from 0 to 1.
        cancelled: asked now and then whether to stop.

    Raises:
        CannotUse: it is no scan that is placed, is too coarse, or the kind is no rectangle.
        CannotRead, DamagedPlan: the scan cannot be read.
        NoRoom, NotAllowed: there is no place for the decoded scan.
    """
    wanted = kind_of_rectangles(kind)
    one = _laid_scan(plan, base_plan)
    pyramid = scan_on_shelf(media.read(one.digest), one.page)
    found = rectangles_in(
        pyramid,
        one.mapping,
        learnt(plan, base_plan, wanted),
        progress=progress,
        cancelled=cancelled,
    )
    proposals = (_proposal(f, base_plan, wanted) for f in found or ())
    return new_proposals(proposals, plan, wanted)


def propose_in(
    plan_path: Path,
    base_plan: ItemId,
    kind: str = GRAVE,
    progress: Progress = lambda _: None,
) -> tuple[Proposal, ...]:
    """Return the same of a plan's file, or of the working copy of one that is open.

    For the window's second process, where it may be stopped at any time:
    ``Work(function=propose_in, arguments=(file.working_copy, base_plan), …)``.

    Raises:
        CannotUse, CannotRead, FileProblem: as ``propose``, or the plan cannot be read.
    """
    plan = read(plan_path).plan
    return propose(plan, KeptIn(plan_path), base_plan, kind=kind, progress=progress)


def accepted(plan: Plan, proposals: Sequence[Proposal], kind: str = GRAVE) -> Add:
    """Return the one edit that draws proposals, without numbers, each traced on its scan.

    Raises:
        CannotUse: the kind is no rectangle, or a base plan is no longer on the plan.
    """
    wanted = kind_of_rectangles(kind)
    bases = {b: _basis(plan, b) for b in {p.base_plan for p in proposals}}
    items: list[Item[Any]] = [
        new_item(wanted, p.rectangle, basis=bases[p.base_plan]) for p in proposals
    ]
    return Add(items=tuple(items))


def waiting(
    plan: Plan, found: Iterable[Proposal], left_out: Container[Proposal], least: float
) -> tuple[Proposal, ...]:
    """Return what is still to be decided: surer than the least, not drawn, not left out."""
    kept = [p for p in found if p.score >= least and p not in left_out]
    if not kept:
        return ()
    return new_proposals(kept, plan, kind_of_rectangles(kept[0].kind))


def score_from(words: str) -> float:
    """Return a score that was typed.

    Raises:
        CannotUse: it is no number from 0 to 1.
    """
    try:
        score = float(words.strip().replace(",", "."))
    except ValueError:
        score = -1.0
    if not 0.0 <= score <= 1.0:
        raise CannotUse(
            f"“{words}” is no score. Nothing was changed. Type a number from 0 to 1, such as"
            f" {SURE_ENOUGH}."
        )
    return score


def scans_placed(plan: Plan) -> tuple[BasePlanLine, ...]:
    """Return the base plans in which something can be looked for."""
    return tuple(one for one in lines(plan) if one.is_scan and one.placed)


def proposed_kinds() -> tuple[Kind, ...]:
    """Return the kinds that can be looked for."""
    return tuple(k for k in kinds() if k.usual_m is not None and not k.look.solid)


def walk_tool() -> ToolButton:
    """Return the tool with which proposals are gone through."""
    return next(t for t in tools() if t.name == "proposals")


def kind_of_rectangles(name: str) -> Kind:
    """Return the kind of that name, whose things are rectangles of a usual size.

    Raises:
        CannotUse: there is none.
    """
    kind = kind_named(name)
    if kind is None or kind.usual_m is None:
        known = ", ".join(k.name for k in kinds() if k.usual_m is not None)
        raise CannotUse(
            f"“{name}” is no kind that can be proposed; nothing was changed. There are:"
            f" {known}."
        )
    return kind


def scan_named(plan: Plan, name: str) -> ItemId:
    """Return the placed scan that bears a name.

    Raises:
        CannotUse: none or several bear it, it is a drawing, or it is not placed.
    """
    return _laid_scan(plan, base_plan_named(plan, name).item).item


def _proposal(found: Found, base_plan: ItemId, kind: Kind) -> Proposal:
    return Proposal(
        rectangle=found.rectangle, score=found.score, base_plan=base_plan, kind=kind.name
    )


def _laid_scan(plan: Plan, base_plan: ItemId) -> Laid:
    known = next((line for line in lines(plan) if line.item == base_plan), None)
    if known is None:
        raise CannotUse("That base plan is no longer on the plan; nothing was changed.")
    if not known.is_scan:
        raise CannotUse(
            f"“{known.name}” is a drawing, not a scan; nothing was changed. Its lines can be"
            " traced by clicking on their ends."
        )
    one = next((b for b in laid(plan) if b.item == base_plan), None)
    if one is None:
        raise CannotUse(
            f"“{known.name}” is not placed yet; nothing was changed. Place it by points first."
        )
    return one


def _basis(plan: Plan, base_plan: ItemId) -> Basis:
    _laid_scan(plan, base_plan)  # or it is refused
    return traced(plan, base_plan)
