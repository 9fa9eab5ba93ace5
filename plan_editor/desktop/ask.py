"""What commands may ask, answered by a window: dialogs only for a file or a decision."""

from pathlib import Path

from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QFileDialog, QInputDialog, QMessageBox, QWidget

from plan_editor.commands.command import Part, View
from plan_editor.desktop.dialogs.page import show_page
from plan_editor.desktop.hands import Hands
from plan_editor.desktop.house import House

SORTS = {
    ".gpkg": "Plans",
    ".pdf": "PDF",
    ".dxf": "Drawings (DXF)",
    ".tif": "GeoTIFF",
    ".png": "Pictures",
    ".jpg": "Pictures",
    ".jp2": "Pictures",
}


class WindowAsk:
    """Answers for one window."""

    def __init__(self, window: QWidget, hands: Hands, house: House) -> None:
        self._window = window
        self._hands = hands
        self._house = house

    def file_to_open(self, title: str, suffixes: tuple[str, ...]) -> Path | None:
        """Ask for a file that is there."""
        pattern = " ".join(f"*{s}" for s in suffixes)
        folder = self._house.preferences.folder
        found, _ = QFileDialog.getOpenFileName(
            self._window, title, folder, f"Files ({pattern})"
        )
        return Path(found) if found else None

    def file_to_write(self, title: str, suffix: str, suggested: str) -> Path | None:
        """Ask for a file to be written; the dialog asks whether an old one may be replaced."""
        start = str(Path(self._house.preferences.folder, suggested))
        sort = f"{SORTS.get(suffix, 'Files')} (*{suffix})"
        found, _ = QFileDialog.getSaveFileName(self._window, title, start, sort)
        if not found:
            return None
        path = Path(found)
        return path if path.suffix.lower() == suffix else path.with_name(path.name + suffix)

    def folder(self, title: str) -> Path | None:
        """Ask for a folder."""
        found = QFileDialog.getExistingDirectory(
            self._window, title, self._house.preferences.folder
        )
        return Path(found) if found else None

    def which(self, question: str, answers: tuple[str, ...]) -> int | None:
        """Put a question with worded answers."""
        box = QMessageBox(self._window)
        box.setIcon(QMessageBox.Icon.NoIcon)
        box.setWindowTitle(self._window.windowTitle())
        box.setText(question)
        buttons = [box.addButton(a, QMessageBox.ButtonRole.AcceptRole) for a in answers]
        never_mind = box.addButton("Cancel", QMessageBox.ButtonRole.RejectRole)
        box.setDefaultButton(buttons[0])
        box.setEscapeButton(never_mind)
        box.exec()
        clicked = box.clickedButton()
        box.deleteLater()
        return next((n for n, b in enumerate(buttons) if b is clicked), None)

    def one_of(self, question: str, choices: tuple[str, ...]) -> int | None:
        """Ask for one of a list."""
        title = self._window.windowTitle()
        found, taken = QInputDialog.getItem(
            self._window, title, question, list(choices), 0, editable=False
        )
        return choices.index(found) if taken else None

    def clipboard(self) -> str:
        """Return the text on the clipboard."""
        return QGuiApplication.clipboard().text()

    def put_on_clipboard(self, text: str) -> None:
        """Put a text on the clipboard."""
        QGuiApplication.clipboard().setText(text)

    def pointed_at(self) -> tuple[float, float] | None:
        """Return where the pointer is on the ground."""
        return self._hands.pointed_at()

    def in_view(self) -> tuple[float, float, float, float]:
        """Return what is seen of the ground."""
        return self._hands.in_view()

    def show_chosen(self) -> None:
        """Bring what is chosen into sight."""
        self._hands.show_chosen()

    def open_menu(self) -> None:
        """Open the menu of what can be done where the pointer is."""
        self._hands.open_menu()

    def number(self, question: str, least: int, most: int) -> int | None:
        """Ask for a whole number."""
        title = self._window.windowTitle()
        found, taken = QInputDialog.getInt(self._window, title, question, least, least, most)
        return found if taken else None

    def tell(self, message: str) -> None:
        """Say a sentence over the ground."""
        self._hands.say(message)

    def open_plan(self, path: Path) -> None:
        """Show a plan in a window of its own."""
        self._house.open_plan(path)

    def new_plan(self) -> None:
        """Ask for a name and a grid, and show the new plan."""
        self._house.new_plan()

    def close(self) -> None:
        """Close the window."""
        self._window.close()

    def quit(self) -> None:
        """Close every window."""
        self._house.quit()

    def save(self) -> None:
        """Save the plan."""
        self._hands.save()

    def save_as(self, path: Path) -> None:
        """Save under another name and work on there."""
        self._hands.save_as(path)

    def save_copy(self, path: Path) -> None:
        """Write a copy."""
        self._hands.save_copy(path)

    def print_sheet(self, name: str) -> None:
        """Show a sheet, ready to be printed."""
        self._hands.print_sheet(name)

    def print_keys(self) -> None:
        """Print every key there is."""
        self._hands.print_keys()

    def write_drawing(self, format_name: str) -> None:
        """Write the plan in another program's format."""
        self._hands.write_drawing(format_name)

    def view(self, view: View) -> None:
        """Show another piece of the ground."""
        self._hands.view(view)

    def go(self, job: str) -> None:
        """Turn to another job."""
        self._hands.go(job)

    def unfold(self, section: str) -> None:
        """Open a section and take the keys there."""
        self._hands.unfold(section)

    def reach(self, part: Part) -> None:
        """Take the keys to a part of the window."""
        self._hands.reach(part)

    def dress(self, colours: str) -> None:
        """Put on another palette."""
        self._house.dress(colours)

    def lay(self, path: Path) -> None:
        """Lay a file under the ground."""
        self._hands.lay(path)

    def read_page(self, name: str) -> None:
        """Show a page of text."""
        show_page(self._window, name)
