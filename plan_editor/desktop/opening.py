"""Opening a plan: what is asked where it is in use, or was left behind by a crash."""

from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

from plan_editor.commands.command import Ask
from plan_editor.errors import DamagedPlan, NotAllowed, NotAPlan, PlanInUse
from plan_editor.storage.copies import newest_whole, restore
from plan_editor.storage.leftovers import Leftover, leftovers
from plan_editor.storage.plan_file import PlanFile

READ, TAKE = "Open it to read only", "Take it over"
PUT_BACK = "Put the copy in its place"
BACK, AS_SAVED, FORGET = "Bring the edits back", "Open it as saved", "Throw them away"


def opened(path: Path, ask: Ask) -> PlanFile | None:
    """Return a plan's file, opened after what had to be asked; None where the user let it be.

    Raises:
        FileProblem: it cannot be opened.
    """
    path = path.resolve()
    try:
        return _opened(path, ask)
    except (DamagedPlan, NotAPlan) as error:
        copy = newest_whole(path)
        if copy is None:
            raise
        when = _by_the_clock(datetime.fromtimestamp(copy.stat().st_mtime, UTC))
        question = f"{error} There is a whole copy, saved {when}; the file itself is kept too."
        if ask.which(question, (PUT_BACK,)) is None:
            return None
        restore(path)
        return _opened(path, ask)


def _opened(path: Path, ask: Ask) -> PlanFile | None:
    for leftover in leftovers():
        if leftover.plan == path:
            match ask.which(_question(leftover), (BACK, AS_SAVED, FORGET)):
                case 0:
                    return _recovered(leftover, ask)
                case 1:
                    continue  # they stay, and are offered again the next time
                case 2:
                    leftover.discard()
                case _:
                    return None
    return _locked(
        lambda *, take_over: PlanFile.open(path, take_over=take_over),
        lambda: PlanFile.open(path, read_only=True),
        ask,
    )


def _question(leftover: Leftover) -> str:
    edits = "1 edit was" if leftover.entries == 1 else f"{leftover.entries} edits were"
    if not leftover.entries:
        edits = "Edits were"
    return (
        f"When the program last stopped, {edits} not saved to {leftover.plan.name}"
        f" (the last on {_day(leftover.when)})."
    )


def _recovered(leftover: Leftover, ask: Ask) -> PlanFile | None:
    def recover(*, take_over: bool) -> PlanFile:
        return PlanFile.recover(leftover, take_over=take_over)

    return _locked(recover, None, ask)


def _locked(
    working: "Callable[..., PlanFile]", reading: Callable[[], PlanFile] | None, ask: Ask
) -> PlanFile | None:
    try:
        return working(take_over=False)
    except (PlanInUse, NotAllowed) as error:
        offers = {READ: reading} if reading is not None else {}
        if isinstance(error, PlanInUse) and error.may_take_over:
            offers[TAKE] = lambda: working(take_over=True)
        if not offers:
            raise
        answer = ask.which(str(error), tuple(offers))
        chosen = None if answer is None else tuple(offers.values())[answer]
    return None if chosen is None else chosen()


def _day(when: str) -> str:
    """Return a time, kept in UTC, by the user's own clock."""
    try:
        return _by_the_clock(datetime.fromisoformat(when))
    except ValueError:  # whoever wrote it kept no time
        return "an unknown day"


def _by_the_clock(when: datetime) -> str:
    return f"{when.astimezone():%Y-%m-%d at %H:%M}"
