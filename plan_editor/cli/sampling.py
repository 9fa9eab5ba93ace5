"""The sample: copied, and the main job done on it."""

import shlex
import shutil
import sys
from argparse import Namespace
from filecmp import cmp
from pathlib import Path

from plan_editor.cli.making import facts, told
from plan_editor.cli.verb import Said
from plan_editor.commands.making import make_drawing, make_sheet
from plan_editor.errors import NotAllowed
from plan_editor.printing.sheet import Asked, sheets
from plan_editor.resources import sample as shipped

PLAN = "harrowmere.gpkg"
SCAN = "harrowmere-1962.jpg"
GNSS = "harrowmere-gnss.csv"
TIES = "harrowmere-ties.csv"
REGISTER = "harrowmere-register.csv"
BESIDE = (SCAN, GNSS, TIES, REGISTER)
"""What lies beside the plan: the sources of its story, to be worked with."""

DAY = "2026-05-16"
"""The day on which the sample's story is told; its sheets bear this date."""


def sample(asked: Namespace) -> Said:
    """Copy the sample to a folder and make its sheets and its drawing there."""
    folder = Path(asked.folder)
    _copy(folder)
    plan = folder / PLAN
    made = [
        make_sheet(plan, s.name, Asked(date=DAY, maker="The sample"), folder / f"{s.name}.pdf")
        for s in sheets()
        if not s.about  # the others are of one thing
    ]
    drawing, _ = make_drawing(plan, "dxf", folder / "harrowmere.dxf")
    lines = [*map(told, made), f"{drawing.path}: the drawing, in true coordinates."]
    opening = shlex.join((_as_typed(), str(plan)))
    lines += ["", f"St Elfric, Harrowmere, as on {DAY}. To open the window:", f"  {opening}"]
    return Said(
        text="\n".join(lines),
        facts={
            "plan": str(plan),
            "scan": str(folder / SCAN),
            "points": str(folder / GNSS),
            "field_book": str(folder / TIES),
            "register": str(folder / REGISTER),
            "sheets": [facts(m) for m in made],
            "drawing": str(drawing.path),
            "window": opening,
        },
    )


def _as_typed() -> str:
    # the program may lie in an environment that is not on the path
    typed = sys.argv[0]
    return typed if Path(typed).stem == "plan-editor" else "plan-editor"


def _copy(folder: Path) -> None:
    try:
        folder.mkdir(parents=True, exist_ok=True)
        _refuse_if_worked_on(folder / PLAN)
        for name in (PLAN, *BESIDE):
            shutil.copyfile(shipped(name), folder / name)
    except OSError as fault:
        raise NotAllowed(
            f"The sample was not copied to {folder}: {fault.strerror}. Choose another folder."
        ) from fault


def _refuse_if_worked_on(plan: Path) -> None:
    if plan.exists() and not cmp(plan, shipped(PLAN), shallow=False):
        raise NotAllowed(
            f"There is a plan {plan} already, and it is not the sample as it comes. It was not"
            " replaced. Choose another folder."
        )
