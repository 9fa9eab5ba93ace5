"""Sheets and drawings made beside the window, in the second process."""

from functools import partial
from pathlib import Path
from typing import Any

from PySide6.QtCore import QObject, Signal

from plan_editor.commands.calendars import SUFFIX as CALENDAR
from plan_editor.commands.calendars import make_calendar
from plan_editor.commands.command import Ask
from plan_editor.commands.exporting_base_plans import (
    WrittenBasePlan,
    suffix_as_it_came,
    write_base_plan,
)
from plan_editor.commands.making import (
    Made,
    format_named,
    make_drawing,
    make_sheet,
    sheet_named,
)
from plan_editor.commands.printing_keys import NAMED, make_key_sheet
from plan_editor.commands.schedules import make_schedule, schedule_named
from plan_editor.desktop.background import Background, Work
from plan_editor.desktop.preview import draw_sheet
from plan_editor.errors import PlanEditorError
from plan_editor.exchange.format import Report
from plan_editor.plan.item import ItemId
from plan_editor.printing.sheet import Asked
from plan_editor.records.schedule import Asked as AskedSchedule
from plan_editor.session import Session


class Making(QObject):
    """Makes what a window is asked for. ``wanted`` names the sheet that is to be shown."""

    wanted = Signal(str)
    drawn = Signal(bytes, str)
    not_drawn = Signal(str)

    def __init__(
        self, session: Session, background: Background, ask: Ask, parent: QObject
    ) -> None:
        super().__init__(parent)
        self._session = session
        self._background = background
        self._ask = ask

    def show_sheet(self, name: str) -> None:
        """Have a sheet shown, ready to be printed."""
        self.wanted.emit(name)

    def draw_sheet(self, name: str, asked: Asked, side: int) -> None:
        """Make a small picture of a sheet's first page; ``drawn`` brings it as PNG.

        ``drawn`` tells the scale and paper besides; ``not_drawn`` why there is none.
        """
        if (file := self._session.file) is None:
            return
        self._background.in_process(
            Work(
                about="preview",
                title="Drawing the sheet",
                function=draw_sheet,
                arguments=(file.working_copy, name, asked, side),
                done=self._bring,
                failed=self._say_not_drawn,
            )
        )

    def print_sheet(self, name: str, asked: Asked) -> None:
        """Ask for a file and make the PDF."""
        if (file := self._session.file) is None:
            return
        title = sheet_named(name).title
        suggested = f"{file.path.stem} {title.lower()}.pdf"
        path = self._ask.file_to_write(f"Print: {title}", ".pdf", suggested)
        if path is None:
            return
        self._make(
            f"sheet {path}",
            f"Making the {title.lower()}",
            make_sheet,
            (file.working_copy, name, asked, path),
        )

    def write_schedule(self, name: str, asked: AskedSchedule, suffix: str) -> None:
        """Ask for a file and write a schedule; its suffix says as what."""
        if (file := self._session.file) is None:
            return
        title = schedule_named(name).title
        suggested = f"{file.path.stem} {title.lower()}{suffix}"
        path = self._ask.file_to_write(f"Write: {title}", suffix, suggested)
        if path is not None:
            self._make(
                f"schedule {path}",
                f"Writing {path.name}",
                make_schedule,
                (file.working_copy, name, asked, path),
            )

    def write_calendar(self, on: str) -> None:
        """Ask for a file and write what is due as a calendar, as known on an ISO date."""
        if (file := self._session.file) is None:
            return
        suggested = f"{file.path.stem} due{CALENDAR}"
        path = self._ask.file_to_write("Write the calendar", CALENDAR, suggested)
        if path is not None:
            self._make(
                f"calendar {path}",
                f"Writing {path.name}",
                make_calendar,
                (file.working_copy, on, path),
            )

    def print_keys(self) -> None:
        """Ask for a file and print every key there is."""
        if (path := self._ask.file_to_write("Print the keys", ".pdf", NAMED)) is not None:
            self._make(f"keys {path}", "Printing the keys", make_key_sheet, (path,))

    def write_drawing(self, format_name: str) -> None:
        """Ask for a file and write the plan in another program's format."""
        if (file := self._session.file) is None:
            return
        one = format_named(format_name)
        suggested = f"{file.path.stem}{one.suffixes[0]}"
        path = self._ask.file_to_write(f"Write {one.title}", one.suffixes[0], suggested)
        if path is not None:
            self._make(
                f"drawing {path}",
                f"Writing {path.name}",
                make_drawing,
                (file.working_copy, format_name, path),
            )

    def write_geotiff(self, item: ItemId, name: str) -> None:
        """Ask for a file and write a placed scan as a GeoTIFF."""
        self._write_base_plan(item, name, ".tif")

    def write_with_world_file(self, item: ItemId, name: str) -> None:
        """Ask for a file and write a placed scan as it came, with a world file beside it."""
        if (file := self._session.file) is None:
            return
        self._background.in_process(
            Work(
                about="suffix",
                title="Reading the scan",
                function=suffix_as_it_came,
                arguments=(file.working_copy, item),
                done=partial(self._write_base_plan, item, name),
                failed=self._fail,
            )
        )

    def _write_base_plan(self, item: ItemId, name: str, suffix: str) -> None:
        if (file := self._session.file) is None:
            return
        plain = "".join(c if c.isalnum() or c in " -_" else "-" for c in name)
        path = self._ask.file_to_write(f"Write {name}", suffix, f"{plain}{suffix}")
        if path is not None:
            self._make(
                f"base plan {path}",
                f"Writing {path.name}",
                write_base_plan,
                (file.working_copy, item, path),
            )

    def _make(self, about: str, title: str, function: Any, arguments: tuple[Any, ...]) -> None:
        self._background.in_process(
            Work(
                about=about,
                title=title,
                function=function,
                arguments=arguments,
                done=self._tell,
                failed=self._fail,
            )
        )

    def _tell(self, found: Made | tuple[Made, Report | int] | WrittenBasePlan) -> None:
        if isinstance(found, WrittenBasePlan):
            self._ask.tell(written(found))
        else:
            self._ask.tell(told(found[0] if isinstance(found, tuple) else found))

    def _bring(self, picture: tuple[bytes, str]) -> None:
        self.drawn.emit(*picture)

    def _say_not_drawn(self, error: PlanEditorError) -> None:
        self.not_drawn.emit(str(error))

    def _fail(self, error: PlanEditorError) -> None:
        self._ask.tell(str(error))


def written(made: WrittenBasePlan) -> str:
    """Return in words what was written of a base plan."""
    beside = f" with {made.world_file.name}" if made.world_file is not None else ""
    remarks = "".join(f" {remark}" for remark in (made.basis, *made.remarks))
    return f"{made.path.name} is written{beside}. It lies in {made.path.parent}.{remarks}"


def told(made: Made) -> str:
    """Return in words what was made."""
    pages = f"{made.pages} pages" if made.pages > 1 else "1 page"
    scale = "" if made.scale is None else f", 1:{made.scale:g}"
    sheet = f", {made.paper}{scale}, {pages}" if made.paper else ""
    remarks = "".join(f" {remark}" for remark in made.remarks)
    return f"{Path(made.path).name} is written{sheet}. It lies in {made.path.parent}.{remarks}"
