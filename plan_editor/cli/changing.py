"""Verbs that make or change a plan: opened, changed by one edit, saved whole."""

from argparse import Namespace
from contextlib import suppress
from math import nan
from pathlib import Path

from plan_editor.cli.dates import day
from plan_editor.cli.names import one_line
from plan_editor.cli.verb import Said
from plan_editor.commands.laying import lay
from plan_editor.errors import CannotUse, ChangedElsewhere, NotAPlan, NotThere
from plan_editor.plan.document import Document
from plan_editor.storage.copies import restore as put_back
from plan_editor.storage.plan_file import PlanFile
from plan_editor.survey.grids.crs import checked, described
from plan_editor.survey.grids.grid import Grid

AUTHOR = "command line"
"""Who makes the edits of the command line, as the log has it."""

_FARTHEST = 1e8
"""No projected system of the Earth has greater coordinates, in metres."""


def new(asked: Namespace) -> Said:
    """Begin an empty plan."""
    path = _new_file(asked.plan)
    name = one_line(asked.name, "--name")
    east, north = _origin(asked.origin)
    grid = Grid(crs=checked(asked.crs), east=east, north=north)
    with PlanFile.create(path, name=name, grid=grid):
        pass
    facts = {
        "plan": str(path),
        "name": name,
        "crs": grid.crs,
        "origin": [grid.east, grid.north],
    }
    crs = described(grid.crs).name
    return Said(text=f"{path} is an empty plan of {name} in {crs}.", facts=facts)


def base_add(asked: Namespace) -> Said:
    """Lay a scan or a drawing under the ground."""
    name = one_line(asked.name, "--name")
    page = _page(asked.page)
    with PlanFile.open(Path(asked.plan)) as file:
        refuse_if_changed_elsewhere(file)
        document = Document(file.plan, journal=file, author=AUTHOR)
        done = lay(document, file, Path(asked.file), name=name, page=page)
        remarks = file.save()
    report = done.report
    passed_over = report.passed_over if report else ()
    guessed = report.guessed if report else ()
    facts = {
        "item": done.item,
        "name": name,
        "page": page,
        "placed": done.placed,
        "passed_over": list(passed_over),
        "guessed": list(guessed),
    }
    lines = [done.text]
    lines += [f"Left out: {words}" for words in passed_over]
    lines += [f"Taken for granted: {words}" for words in guessed]
    return Said(text="\n".join((*lines, *remarks)), facts=facts)


def _page(text: str | None) -> int:
    if text is None:
        return 1
    if not (text.isascii() and text.isdecimal() and len(text) <= 6 and int(text) >= 1):
        raise CannotUse(f"“{text}” is no page. Write --page 2 for the second.")
    return int(text)


def restore(asked: Namespace) -> Said:
    """Put back an earlier copy of a plan."""
    path = Path(asked.plan)
    with suppress(OSError):  # what may not be looked at is told by the restoring itself
        if path.exists() and not path.is_file():
            raise NotAPlan(f"{path} is a folder or a device, not a plan. Nothing was restored.")
    done = put_back(path, None if asked.date is None else day(asked.date))
    kept = f" The file that it replaced is kept as {done.kept}." if done.kept else ""
    return Said(
        text=f"{asked.plan} is again as in {done.source}.{kept}",
        facts={
            "plan": asked.plan,
            "from": str(done.source),
            "kept": str(done.kept) if done.kept else None,
        },
    )


def refuse_if_changed_elsewhere(file: PlanFile) -> None:
    """Let nobody change a plan over the head of another program.

    Raises:
        ChangedElsewhere: another program changed the file since it was saved.
    """
    if count := len(file.changed_elsewhere):
        raise ChangedElsewhere(
            f"Another program changed {count} {'thing' if count == 1 else 'things'} in"
            f" {file.path.name}. Nothing was changed here. Open the plan in the window first"
            " and take those changes in, or refuse them."
        )


def _new_file(text: str) -> Path:
    path = Path(text)
    if path.suffix.lower() != ".gpkg":
        wanted = path.with_suffix(".gpkg") if path.name else "a name such as harrowmere.gpkg"
        raise CannotUse(f"The file of a plan ends in .gpkg: write {wanted}.")
    with suppress(OSError):  # what may not be looked at is told when the plan is made
        if not path.parent.is_dir():
            raise NotThere(
                f"There is no folder {path.parent}. No plan was made. Make it first."
            )
    return path


def _origin(text: str) -> tuple[float, float]:
    try:
        east, north = (float(part) for part in text.split(","))
    except ValueError:
        east = north = nan
    if not (abs(east) <= _FARTHEST and abs(north) <= _FARTHEST):
        raise CannotUse(
            f"“{text}” is no origin. Write easting and northing with a comma: 553100,421000."
        )
    return east, north
