"""Sheets and drawings made from a plan's file, for the command line and the window's worker.

Everything here takes the path of a plan and reads what it needs; a plan that is open in a
window is read from its working copy, which holds every edit.
"""

from contextlib import suppress
from dataclasses import dataclass, replace
from pathlib import Path

from plan_editor.commands.backdrops import backdrops
from plan_editor.commands.chronicles import chronicle_of, pictures_of
from plan_editor.commands.churchyards import churchyard_alone
from plan_editor.commands.reading import read
from plan_editor.errors import CannotUse
from plan_editor.exchange.format import Format, Report, formats
from plan_editor.ground.base_plans import laid
from plan_editor.plan.kind import kind_named
from plan_editor.plan.plan import Plan
from plan_editor.printing.pdf import write
from plan_editor.printing.sheet import Asked, Chronicle, Printed, Sheet, Supplied, sheets
from plan_editor.storage.loading import read_media

_OF_PLANS = (".gpkg", ".bak")
"""How the names of plans end, and of what is kept of them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """What was made.

    Args:
        path: the file.
        revision: of the plan that it shows.
        scale: of a sheet, the number in 1:200; None of a drawing.
        paper: of a sheet, ``A3``.
        pages: of a sheet.
        remarks: what whoever uses it should know, in plain words.
    """

    path: Path
    revision: int
    scale: float | None = None
    paper: str = ""
    pages: int = 0
    remarks: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class KeptIn:
    """The media of a plan's file or working copy, read without opening the plan for work."""

    plan: Path

    def read(self, digest: str) -> bytes:
        """Return the bytes with that digest; see ``media.Kept``."""
        return read_media(self.plan, digest)


def make_sheet(plan_path: Path, sheet: str, asked: Asked, out: Path) -> Made:
    """Print a sheet of a plan to a PDF.

    Raises:
        CannotPrint: it does not fit; the text says which scale or paper would.
        CannotUse: there is no sheet of that name, or the PDF would take the place of a plan.
        FileProblem: the plan cannot be read or the PDF not written.
    """
    found = read(plan_path)
    check_out(out, plan_path)
    printed = compose(found.plan, KeptIn(plan_path), sheet_named(sheet), asked)
    write(printed, out)
    return Made(
        path=out,
        revision=found.plan.revision,
        scale=printed.scale,
        paper=printed.paper.name,
        pages=len(printed.pages),
        remarks=(*found.remarks, *printed.remarks),
    )


def compose(plan: Plan, media: KeptIn, sheet: Sheet, asked: Asked) -> Printed:
    """Return the pages of a sheet.

    Args:
        plan: what it shows.
        media: of the plan, and its file or working copy.
        sheet: which sheet.
        asked: how it is wanted.

    Raises:
        CannotPrint: it does not fit.
        CannotRead, DamagedPlan: a base plan that is wanted cannot be read.
        CannotUse: there is no churchyard of the name that is asked for.
    """
    check_item(plan, sheet, asked)
    plan, remarks = churchyard_alone(plan, asked.churchyard)
    wanted = [one for one in laid(plan) if asked.base_plans and one.reproducible]
    pictures, lacking = pictures_of(media, sheet.pictures(plan, asked))
    supplied = Supplied(
        backdrops=backdrops(wanted, media),
        pictures=pictures,
        chronicle=_chronicle(plan, media, sheet, asked),
    )
    printed = sheet.compose(plan, asked, supplied)
    return replace(printed, remarks=(*printed.remarks, *remarks, *lacking))


def _chronicle(plan: Plan, media: KeptIn, sheet: Sheet, asked: Asked) -> Chronicle:
    if not sheet.chronicle or asked.item is None:
        return Chronicle()
    return chronicle_of(media.plan, plan, asked.item)


def check_item(plan: Plan, sheet: Sheet, asked: Asked) -> None:
    """Let a sheet be made only of a thing that it can be about.

    Raises:
        CannotUse: it is about a thing and none is given, or one of another kind.
    """
    item = None if asked.item is None else plan.items.get(asked.item)
    if item is not None and item.kind.name in sheet.about:
        return
    if asked.item is None and (sheet.optional or not sheet.about):
        return
    if not sheet.about:
        raise CannotUse(f"{sheet.title} is of the whole plan. Nothing was printed.")
    wanted = " or ".join(k.one for n in sheet.about if (k := kind_named(n)))
    raise CannotUse(f"{sheet.title}: choose {wanted} first. Nothing was printed.")


def make_drawing(plan_path: Path, format_name: str, out: Path) -> tuple[Made, Report]:
    """Write a plan in another program's format.

    Raises:
        CannotUse: nothing is written in that format, or it would take the place of a plan.
        FileProblem: the plan cannot be read or the file not written.
    """
    write_drawing = format_named(format_name).write
    if write_drawing is None:
        raise CannotUse(f"{format_name} can be read here, but not written.")
    found = read(plan_path)
    check_out(out, plan_path)
    report = write_drawing(found.plan, out)
    remarks = (*found.remarks, *(f"Left out: {words}" for words in report.passed_over))
    return Made(path=out, revision=found.plan.revision, remarks=remarks), report


def sheet_named(name: str) -> Sheet:
    """Return the sheet of that name.

    Raises:
        CannotUse: there is none.
    """
    for sheet in sheets():
        if sheet.name == name:
            return sheet
    known = ", ".join(s.name for s in sheets())
    raise CannotUse(f"There is no sheet named {name}. There are: {known}.")


def format_named(name: str) -> Format:
    """Return the format of that name.

    Raises:
        CannotUse: there is none.
    """
    for one in formats():
        if one.name == name:
            return one
    raise CannotUse(f"There is no format named {name}.")


def check_out(out: Path, plan_path: Path) -> None:
    """Refuse to write where a plan would be lost, or a device.

    Raises:
        CannotUse: the name is that of a plan, of a device, or none.
    """
    if not out.name:
        raise CannotUse("The file to be written needs a name. Nothing was written.")
    with suppress(OSError):  # what may not be looked at is told when it is written
        if out.suffix.lower() in _OF_PLANS or (out.exists() and out.samefile(plan_path)):
            raise CannotUse(
                f"{out} is a plan, or named like one. Nothing was written. Choose another name."
            )
        if out.exists() and not (out.is_file() or out.is_dir()):
            raise CannotUse(f"{out} is no file. Nothing was written. Choose another name.")
