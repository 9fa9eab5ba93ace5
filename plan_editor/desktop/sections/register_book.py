"""The register book: taken in from a table, written as one, an entry put right."""

from pathlib import Path

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from plan_editor.commands.register_files import (
    SUFFIXES,
    LookedRegister,
    counted,
    look_at_register,
    write_register,
)
from plan_editor.desktop.background import Work
from plan_editor.desktop.correction_form import CorrectionForm
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.dialogs.register import RegisterDialog
from plan_editor.desktop.follow import Follow
from plan_editor.desktop.parts import button, column, side_by_side, text
from plan_editor.desktop.removal_form import RemovalForm
from plan_editor.desktop.section import Section
from plan_editor.desktop.theme import STEP

ABOUT = (
    "The burial register as a table: CSV or XLSX, columns in any order, dates as people write"
    " them. You see every doubtful cell before anything is taken in. The same table once more"
    " changes nothing; one that says more brings the entries up to it."
)


class RegisterBook(QWidget):
    """Reads a table, shows it before it is taken in, writes one, corrects an entry."""

    noted = Signal(str)

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self._out: Path | None = None
        self.dialog: RegisterDialog | None = None
        self.read = button(self, "Read a table…", self._choose)
        self.write = button(self, "Write a table…", self._write)
        self.form = CorrectionForm(desk.session, self)
        self.removal = RemovalForm(desk.session, self)
        down = column(self, space=2 * STEP)
        down.addWidget(text(self, ABOUT, "soft"))
        down.addWidget(side_by_side(self, self.read, self.write))
        down.addWidget(self.form)
        down.addWidget(self.removal)
        self._follow = Follow(self, self._refresh, desk.session.document.changed)

    def _refresh(self) -> None:
        self.read.setEnabled(self._desk.session.may_edit)
        plan = self._desk.session.document.plan
        count = len(plan.by_kind.get("burial", ()))
        self.write.setEnabled(count > 0)
        self.noted.emit(counted(count, "entry", "entries") if count else "")

    def _choose(self) -> None:
        path = self._desk.ask.file_to_open("Read the register from a table", SUFFIXES)
        if path is None:
            return
        self._desk.background.in_thread(
            Work(
                about="reading the register",
                title=f"Reading {path.name}",
                function=look_at_register,
                arguments=(path,),
                done=self._show,
                failed=self._desk.say_why,
            )
        )

    def _show(self, looked: LookedRegister) -> None:
        self.dialog = RegisterDialog(self._desk, looked, self.window())
        self.dialog.finished.connect(self.dialog.deleteLater)
        self.dialog.finished.connect(self._forget)
        self.dialog.open()

    def _forget(self) -> None:
        self.dialog = None

    def _write(self) -> None:
        if (file := self._desk.session.file) is None:
            return
        suggested = f"{file.path.stem} register.xlsx"
        path = self._desk.ask.file_to_write("Write the register", ".xlsx", suggested)
        if path is None:
            return
        self._out = path
        self._desk.background.in_process(
            Work(
                about=f"register {path}",
                title=f"Writing {path.name}",
                function=write_register,
                arguments=(file.working_copy, path),
                done=self._tell,
                failed=self._desk.say_why,
            )
        )

    def _tell(self, written: tuple[int, tuple[str, ...]]) -> None:
        count, remarks = written
        if self._out is not None:
            told = f"{self._out.name} is written: {counted(count, 'entry', 'entries')}."
            self._desk.ask.tell(" ".join((told, f"It lies in {self._out.parent}.", *remarks)))


SECTION = Section(
    name="register",
    job="records",
    title="Register book",
    order=20,
    help="Take in the burial register from a table, write it as one, correct an entry.",
    widget=RegisterBook,
)
