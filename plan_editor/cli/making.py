"""Verbs that make a file from a plan."""

from argparse import Namespace
from pathlib import Path

from plan_editor.cli.dates import day
from plan_editor.cli.verb import Said
from plan_editor.commands.making import Made, make_drawing, make_sheet, sheet_named
from plan_editor.commands.naming import example_of, item_named
from plan_editor.commands.reading import read
from plan_editor.errors import CannotUse
from plan_editor.plan.item import ItemId
from plan_editor.printing.sheet import Asked, Paper


def sheet(asked: Namespace) -> Said:
    """Print a sheet to a PDF."""
    wanted = Asked(
        paper=_paper(asked.paper),
        scale=_scale(asked.scale),
        date=day(asked.date),
        maker=asked.maker,
        base_plans=asked.base_plans,
        churchyard=asked.churchyard,
        item=_item(asked),
        contacts=asked.contacts,
    )
    made = make_sheet(Path(asked.plan), asked.sheet, wanted, Path(asked.out))
    return Said(text=told(made), facts=facts(made))


def _item(asked: Namespace) -> ItemId | None:
    wanted = sheet_named(asked.sheet)
    if not asked.item and (wanted.optional or not wanted.about):
        return None
    plan = read(Path(asked.plan)).plan
    if not asked.item:
        raise CannotUse(f"{wanted.title} {_how_to_tell(asked, example_of(plan, wanted.about))}")
    return item_named(plan, asked.item, wanted.about).id


def _how_to_tell(asked: Namespace, example: str) -> str:
    if not example:
        return "is about one thing, and there is none of its sort yet. Nothing was printed."
    return (
        "is about one thing, and it was not told which. Nothing was printed. Write after the"
        f" plan what it is called, in quotes: plan-editor sheet {asked.sheet} {asked.plan}"
        f' "{example}" -o {asked.out}'
    )


def dxf_write(asked: Namespace) -> Said:
    """Write a plan as a DXF drawing."""
    made, report = make_drawing(Path(asked.plan), "dxf", Path(asked.out))
    head = f"{made.path}: {', '.join(report.done) or 'nothing is drawn yet'}."
    return Said(
        text="\n".join((head, *made.remarks)), facts={**facts(made), "done": list(report.done)}
    )


def told(made: Made) -> str:
    """Return what was made, for a person."""
    pages = "1 page" if made.pages == 1 else f"{made.pages} pages"
    scale = "" if made.scale is None else f" at 1:{made.scale:g}"
    head = f"{made.path}: {pages} {made.paper}{scale}."
    return "\n".join((head, *made.remarks))


def facts(made: Made) -> dict[str, object]:
    """Return what was made, for a program."""
    return {
        "file": str(made.path),
        "revision": made.revision,
        "scale": made.scale,
        "paper": made.paper or None,
        "pages": made.pages or None,
        "remarks": list(made.remarks),
    }


def _paper(text: str | None) -> Paper | None:
    if text is None:
        return None
    try:
        return Paper[text.upper()]
    except KeyError:
        known = ", ".join(p.name for p in Paper)
        raise CannotUse(f"“{text}” is no paper size here. There are {known}.") from None


def _scale(text: str | None) -> float | None:
    if text is None:
        return None
    try:
        scale = float(text.removeprefix("1:"))
    except ValueError:
        scale = 0.0
    if not 1 <= scale <= 100_000:
        raise CannotUse(f"“{text}” is no scale. Write 200 for 1:200.")
    return scale
