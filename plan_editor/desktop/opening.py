"""Opening a plan: what is asked where it is in use, or was left behind by a crash."""

from collections.abc import Callable
from pathlib import Path

from plan_editor.commands.command import Ask
from plan_editor.errors import PlanInUse
from plan_editor.storage.leftovers import Leftover, leftovers
from plan_editor.storage.plan_file import PlanFile

READ, TAKE = "Open it to read only", "Take it over"
BACK, FORGET = "Bring the edits back", "Throw them away"


def opened(path: Path, ask: Ask) -> PlanFile | None:
    """Return a plan's file, opened after what had to be asked; None where the user let it be.

    Raises:
        FileProblem: it cannot be opened.
    """
    path = path.resolve()
    for leftover in leftovers():
        if leftover.plan == path:
            found = _offered(leftover, ask)
            if found is not None:
                return found
    return _locked(
        lambda *, take_over: PlanFile.open(path, take_over=take_over),
        lambda: PlanFile.open(path, read_only=True),
        ask,
    )


def _offered(leftover: Leftover, ask: Ask) -> PlanFile | None:
    edits = "1 edit was" if leftover.entries == 1 else f"{leftover.entries} edits were"
    if not leftover.entries:
        edits = "Edits were"
    question = (
        f"When the program last stopped, {edits} not saved to {leftover.plan.name}"
        f" (the last on {_day(leftover.when)})."
    )
    match ask.which(question, (BACK, FORGET)):
        case 0:
            return _locked(
                lambda *, take_over: PlanFile.recover(leftover, take_over=take_over), None, ask
            )
        case 1:
            leftover.discard()
            return None
        case _:
            return None


def _locked(
    working: "Callable[..., PlanFile]", reading: Callable[[], PlanFile] | None, ask: Ask
) -> PlanFile | None:
    try:
        return working(take_over=False)
    except PlanInUse as error:
        offers = {READ: reading} if reading is not None else {}
        if error.may_take_over:
            offers[TAKE] = lambda: working(take_over=True)
        if not offers:
            raise
        answer = ask.which(str(error), tuple(offers))
        chosen = None if answer is None else tuple(offers.values())[answer]
    return None if chosen is None else chosen()


def _day(when: str) -> str:
    return when[:16].replace("T", " at ")
