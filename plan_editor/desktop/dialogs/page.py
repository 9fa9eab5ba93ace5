"""A page of text to read: keys, cautions, about."""

from importlib.metadata import version

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QPlainTextEdit, QWidget

from plan_editor.commands.keys import AT_WORK, key_groups
from plan_editor.commands.safety import CAUTION
from plan_editor.desktop.parts import button, column, text
from plan_editor.desktop.theme import STEP

TAB = 36 * STEP
TITLES = {"keys": "Keys", "cautions": "Cautions", "about": "Churchyard Plan Editor"}

CAUTIONS = f"""{CAUTION}

Digging needs a competent person, services located beforehand, and shoring. A plan cannot show
unrecorded burials: probe before you dig.

A reservation, a memorial or any disturbance needs a faculty or the leave that your diocese asks
for. What this program computes is no such leave.

Machines throw stones and wire. Keep people away while they work.

Distances from trees and from water are for a first look only; they defer to local regulations
and to a chartered practitioner."""


def page(name: str) -> str:
    """Return the text of a page."""
    match name:
        case "keys":
            return _keys()
        case "cautions":
            return CAUTIONS
        case _:
            return _about()


def show_page(parent: QWidget, name: str) -> None:
    """Show a page in a window of its own; the plan can be worked on meanwhile."""
    dialog = QDialog(parent)
    dialog.setWindowTitle(TITLES[name])
    dialog.resize(150 * STEP, 130 * STEP)
    lines = column(dialog, space=3 * STEP, edge=4 * STEP)
    lines.addWidget(text(dialog, TITLES[name], "heading"))
    words = QPlainTextEdit(page(name), dialog)
    words.setReadOnly(True)
    words.setTabStopDistance(TAB)
    words.setAccessibleName(TITLES[name])
    lines.addWidget(words, 1)
    lines.addWidget(button(dialog, "Close", dialog.accept), 0, Qt.AlignmentFlag.AlignLeft)
    dialog.finished.connect(dialog.deleteLater)
    dialog.show()


def _keys() -> str:
    groups = ("\n".join((g.title, *(f"{k}\t{w}" for k, w in g.keys))) for g in key_groups())
    return "\n\n".join((*groups, AT_WORK))


def _about() -> str:
    return (
        f"Version {version('churchyard-plan-editor')}\n\n"
        "A true-to-scale plan of a churchyard: traced from old paper, measured, kept, and"
        " printed for the people who act on it.\n\n"
        "MIT licence. It uses Qt for Python under the LGPL 3, and the fonts Source Sans 3 (SIL"
        " Open Font Licence 1.1) and DejaVu Sans Condensed (Bitstream Vera licence)."
    )
