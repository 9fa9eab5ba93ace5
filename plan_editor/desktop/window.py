"""A window: name and state above, jobs at the left, the ground, the card at the right."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QByteArray, Qt
from PySide6.QtGui import QCloseEvent, QKeyEvent
from PySide6.QtWidgets import QMainWindow, QVBoxLayout, QWidget
from typing_extensions import override

from plan_editor.commands.command import Ask, Part, View
from plan_editor.commands.finding import Found
from plan_editor.desktop.actions import Actions, run
from plan_editor.desktop.background import Background
from plan_editor.desktop.body import Body
from plan_editor.desktop.day_line import DayLine
from plan_editor.desktop.follow import until_gone
from plan_editor.desktop.ground_menu import GroundMenu
from plan_editor.desktop.house import House
from plan_editor.desktop.looking_through import LookingThrough
from plan_editor.desktop.notice import Notice
from plan_editor.desktop.parts import column, rule
from plan_editor.desktop.recent_menu import RecentMenu
from plan_editor.desktop.saving import Saving
from plan_editor.desktop.start_page import StartPage
from plan_editor.desktop.status_line import StatusLine
from plan_editor.desktop.theme import icon
from plan_editor.desktop.top_line import TopLine
from plan_editor.plan.change import Change
from plan_editor.session import Session

SIZE = (1600, 1000)
PROGRAM = "Churchyard Plan Editor"
FIRST_JOB = "trace"
FIRST_OF_ALL = "survey"
"""The job of a plan that has nothing on it yet: lay an old one under the ground."""


class PlanWindow(QMainWindow):
    """One plan, or the start page where there is none."""

    def __init__(
        self, session: Session, house: House, ask: Callable[["PlanWindow", House], Ask]
    ) -> None:
        super().__init__()
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.session = session
        self.house = house
        self.background = Background(self)
        self.ask = ask(self, house)
        self.commands = Actions(session, self.ask, self)
        self.saving = Saving(session, self.background, self.ask, self)
        self.top = TopLine(session, self)
        self.day = DayLine(session, house, self)
        self.notice = Notice(self)
        self._looking = LookingThrough(self.background, self.say)
        self.status = StatusLine(self.background, self)
        self.body: Body | None = None
        self._menu: GroundMenu | None = None
        self._recent = RecentMenu(house, self)
        self._build()
        self._listen()
        self.dress()
        self._place()

    def dress(self) -> None:
        """Take on the colours of the application."""
        palette = self.house.palette
        self.setWindowIcon(icon("app", palette))
        self.commands.dress(palette)
        if self.body is not None:
            self.body.dress(palette)

    def say(self, words: str) -> None:
        """Say a sentence over the ground."""
        self.notice.say(words)

    def look_through(self) -> None:
        """Look for silent damage to the plan's file, beside the window; say what is found."""
        if (file := self.session.file) is not None:
            self._looking.begin(file.path)

    def view(self, view: View) -> None:
        """Show another piece of the ground."""
        if self.body is not None:
            self.body.ground.view(view)

    def pointed_at(self) -> tuple[float, float] | None:
        """Return where the pointer is on the ground."""
        return self.body.ground.canvas.pointed_at if self.body is not None else None

    def in_view(self) -> tuple[float, float, float, float]:
        """Return what is seen of the ground."""
        return self.body.ground.in_view() if self.body is not None else (0.0, 0.0, 0.0, 0.0)

    def show_chosen(self) -> None:
        """Bring what is chosen into sight, at the scale as it is."""
        if self.body is not None:
            self.body.ground.canvas.bring_into_sight(self.session.chosen)

    def open_menu(self) -> None:
        """Open the menu of what can be done where the pointer is."""
        if self._menu is not None:
            self._menu.open_here()

    def go(self, job: str) -> None:
        """Turn to another job."""
        if self.body is not None:
            self.status.show_job(self.body.go(job))

    def unfold(self, section: str) -> None:
        """Open a section, wherever it stands, and take the keys there."""
        if self.body is not None and (job := self.body.side.job_of(section)):
            self.go(job)
            self.body.side.unfold(job, section)

    def reach(self, part: Part) -> None:
        """Take the keys to a part of the window."""
        if part is Part.FIND:
            self.top.reach()
        elif part is Part.SHOWN:
            self.list_shown()
        elif self.body is not None:
            self.body.reach(part)

    def list_shown(self) -> None:
        """Open the list of what is shown."""
        if self.body is not None:
            self.body.shown.open_above(self.status.corner)

    def lay(self, path: Path) -> None:
        """Lay a file under the ground."""
        if self.body is not None:
            self.go("survey")
            self.body.laying.lay(path)

    def print_sheet(self, name: str) -> None:
        """Show a sheet, ready to be printed."""
        self._take_typed()
        if self.body is not None:
            self.go("sheets")
            self.body.making.show_sheet(name)

    def print_keys(self) -> None:
        """Print every key there is."""
        if self.body is not None:
            self.body.making.print_keys()

    def write_drawing(self, format_name: str) -> None:
        """Write the plan in another program's format."""
        self._take_typed()
        if self.body is not None:
            self.body.making.write_drawing(format_name)

    def save(self) -> None:
        """Save the plan."""
        self._take_typed()
        self.saving.save()

    def save_as(self, path: Path) -> None:
        """Save under another name and work on there."""
        self._take_typed()
        self.saving.save_as(path)

    def save_copy(self, path: Path) -> None:
        """Write a copy."""
        self._take_typed()
        self.saving.save_copy(path)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        # Esc that nobody had a use for goes to the tool in hand, wherever the keys are
        if event.key() == Qt.Key.Key_Escape and self.body is not None:
            self.commands.action("cancel").trigger()
            self.reach(Part.GROUND)
        elif not self.commands.say_why_not(event):
            super().keyPressEvent(event)

    @override
    def closeEvent(self, event: QCloseEvent) -> None:
        # an error that left this method would end the whole program, not only the window
        if self.house.goes_well(self._leave):
            super().closeEvent(event)
        else:
            event.ignore()

    def _leave(self) -> bool:
        if not self._take_typed() or not self.saving.may_close():
            return False
        geometry = bytes(self.saveGeometry().data())
        self.house.remember(self.house.preferences.packed(geometry))
        self.background.end()
        if self.session.file is not None:
            self.session.file.close()
        self.house.closed(self)
        return True

    def _take_typed(self) -> bool:
        """Take what stands typed in the card, or say why not; return whether it was taken."""
        why = self.body.side.card.take_typed() if self.body is not None else ""
        if why:
            self.say(why)
        return not why

    def _build(self) -> None:
        inside = QWidget(self)
        lines = column(inside, space=0)
        lines.addWidget(self.top)
        lines.addWidget(rule(inside))
        lines.addWidget(self.day)
        self._build_middle(inside, lines)
        # below the ground: a sentence that comes must not shift what is under the pointer
        lines.addWidget(self.notice)
        lines.addWidget(rule(inside))
        lines.addWidget(self.status)
        self.setCentralWidget(inside)
        menus = self.commands.fill(self.menuBar())
        menus["File"].insertMenu(self.commands.action("lay"), self._recent)

    def _build_middle(self, inside: QWidget, lines: QVBoxLayout) -> None:
        if not self.session.is_open:
            lines.addWidget(StartPage(self.house, inside), 1)
            self.top.hide()
            self.status.hide()
            return
        self.body = Body(self.session, self.ask, self.background, self.house, inside)
        self.body.strip.chosen.connect(self.go)
        canvas = self.body.ground.canvas
        canvas.pointer_moved.connect(self.status.show_place)
        canvas.scale_changed.connect(self.status.show_scale)
        self.status.list_asked.connect(self.list_shown)
        self._menu = GroundMenu(self.session, canvas, self.commands)
        self.body.ground.touch.held.connect(self._menu.open_at)
        lines.addWidget(self.body, 1)
        self.day.listen_on(canvas)
        self.go(FIRST_JOB if self.session.document.plan.items else FIRST_OF_ALL)

    def _listen(self) -> None:
        session = self.session
        self.top.gone_to.connect(self._go_to)
        self.background.changed.connect(self._show_state)
        until_gone(
            self,
            session.document.changed.connect(self._changed),
            session.chosen_changed.connect(self._follow),
            session.saved.connect(self._follow),
            session.held_changed.connect(self._follow),
            session.locked_changed.connect(self._follow),
            session.showing_changed.connect(self.status.show_left_out),
            session.refused.connect(self.notice.refuse),
        )
        self._follow(None)

    def _place(self) -> None:
        self.resize(*SIZE)
        if kept := self.house.preferences.unpacked():
            self.restoreGeometry(QByteArray(kept))

    def _changed(self, changes: tuple[Change, ...]) -> None:
        self.notice.done()
        self._follow(changes)

    def _follow(self, notice: object) -> None:
        del notice
        self.commands.refresh()
        self._show_state()

    def _show_state(self) -> None:
        file = self.session.file
        if file is None:
            self.setWindowTitle(PROGRAM)
            return
        name = self.session.document.plan.name or file.path.stem
        self.setWindowTitle(f"{name} – {PROGRAM}")
        self.top.show_name(name)
        self.top.show_state(*self.saving.state)
        self.day.refresh()

    def _go_to(self, found: Found) -> None:
        if found.command is not None:
            run(found.command, self.session, self.ask)
        elif found.items:
            self.session.choose(found.items)
            self.view(View.CHOSEN)
        if found.place is not None and self.body is not None:
            self.body.ground.look_at((*found.place, *found.place))
        if found.items or found.place is not None:
            self.reach(Part.GROUND)
