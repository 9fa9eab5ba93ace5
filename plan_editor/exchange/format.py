"""What a format declares, what a report says, and the list of formats."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from plan_editor.declared import declared
from plan_editor.drawing.backdrop import LineWork
from plan_editor.plan.plan import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Report:
    """What became of a file: counts, and what was passed over or guessed, in plain words.

    Args:
        done: ``("1,441 lines", "63 texts")``.
        passed_over: what could not be read or written, with its number and place.
        guessed: what the file did not say, and what was taken instead.
    """

    done: tuple[str, ...] = ()
    passed_over: tuple[str, ...] = ()
    guessed: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """A foreign drawing, ready to lie under the ground.

    Args:
        line_work: in the file's own units.
        metres_per_unit: from the file, or guessed and then reported.
        extent: least x and y, greatest x and y, in the file's own units.
    """

    line_work: LineWork
    metres_per_unit: float
    extent: tuple[float, float, float, float]
    report: Report


Write = Callable[[Plan, Path], Report]
"""Write a plan to a file, whole or not at all.

Raises:
    NoRoom, NotAllowed: it could not be written; nothing is left behind.
"""

ReadDrawing = Callable[[bytes], Drawing]
"""Read a drawing to be laid under the ground.

Raises:
    CannotRead: it holds nothing that can be used.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Format:
    """Another program's file.

    Args:
        name: on the command line: ``dxf``.
        title: in menus.
        suffixes: lower case, with the dot.
        write: None where it is only read.
        read_drawing: None where it cannot lie under the ground.
    """

    name: str
    title: str
    suffixes: tuple[str, ...]
    write: Write | None = None
    read_drawing: ReadDrawing | None = None


def formats() -> tuple[Format, ...]:
    """Return every format there is."""
    return declared("plan_editor.exchange.formats", "FORMAT", Format)
