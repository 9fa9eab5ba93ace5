"""What the keys mean on the ground."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent

from plan_editor.drafting.tool import Act

_K = Qt.Key

ACTS = {
    _K.Key_Escape: Act.CANCEL,
    _K.Key_Return: Act.FINISH,
    _K.Key_Enter: Act.FINISH,
    _K.Key_Backspace: Act.BACK,
}

ZOOMS = {_K.Key_Plus: 1.25, _K.Key_Equal: 1.25, _K.Key_Minus: 0.8}

ARROWS = {
    _K.Key_Left: (-1, 0),
    _K.Key_Right: (1, 0),
    _K.Key_Up: (0, -1),
    _K.Key_Down: (0, 1),
}


def act_of(event: QKeyEvent, *, begun: bool) -> Act | None:
    """Return what a key asks of the tool, or None.

    Args:
        event: the key.
        begun: whether something is begun: Delete then takes back a corner, and is otherwise
            left to the command that removes what is chosen.
    """
    key = Qt.Key(event.key())
    if begun and key is _K.Key_Delete:
        return Act.BACK
    return ACTS.get(key)


def is_figure(event: QKeyEvent) -> bool:
    """Return whether a key begins a length: a digit, without Ctrl or Alt."""
    plain = event.modifiers() in (
        Qt.KeyboardModifier.NoModifier,
        Qt.KeyboardModifier.KeypadModifier,
    )
    return plain and event.text().isdecimal()


def is_ours(event: QKeyEvent, *, begun: bool) -> bool:
    """Return whether a key belongs to the tool in hand, before any shortcut of the window."""
    return act_of(event, begun=begun) is not None or (begun and is_figure(event))
