"""What the keys mean on the ground."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent, QKeySequence

from plan_editor.drafting.tool import Act, Answer

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
    """Return whether a key begins what may be typed: a digit, without Ctrl or Alt."""
    return _plain(event) and event.text().isdecimal()


def takes_figures(answer: Answer) -> bool:
    """Return whether a digit begins a length, or the first blank."""
    return answer.origin is not None or bool(answer.blanks)


def offer_of(event: QKeyEvent, answer: Answer) -> str:
    """Return the name of the offer that a key takes up; empty for none.

    A digit begins a length wherever one may be typed.
    """
    if not _plain(event) or (takes_figures(answer) and is_figure(event)):
        return ""
    return next(
        (o.name for o in answer.offers if o.possible and o.key and _is(event, o.key)), ""
    )


def is_ours(event: QKeyEvent, answer: Answer) -> bool:
    """Return whether a key belongs to the tool in hand, before any shortcut of the window.

    Args:
        event: the key.
        answer: the tool's last.
    """
    begun = answer.origin is not None
    return (
        act_of(event, begun=begun) is not None
        # or else the menus would take it: Alt, let go, leads to them
        or (begun and event.key() == _K.Key_Alt)
        or (takes_figures(answer) and is_figure(event))
        or bool(offer_of(event, answer))
    )


def _plain(event: QKeyEvent) -> bool:
    return event.modifiers() in (
        Qt.KeyboardModifier.NoModifier,
        Qt.KeyboardModifier.KeypadModifier,
    )


def _is(event: QKeyEvent, key: str) -> bool:
    return QKeySequence(event.key()).matches(QKeySequence(key)) is (
        QKeySequence.SequenceMatch.ExactMatch
    )
