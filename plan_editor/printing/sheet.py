"""What a sheet declares, the paper it may lie on, and the list of sheets."""

from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum

from plan_editor.declared import declared
from plan_editor.drawing.backdrop import Backdrop
from plan_editor.drawing.ink import Ink
from plan_editor.plan.plan import Plan


class Paper(Enum):
    """ISO 216 trimmed sizes: shorter and longer side in millimetres."""

    A4 = (210.0, 297.0)
    A3 = (297.0, 420.0)
    A2 = (420.0, 594.0)
    A1 = (594.0, 841.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What is asked of a sheet.

    Args:
        paper: its size; None for the smallest that will do.
        scale: the number in 1:200; None for the largest preferred scale that fits, or one
            between where that would leave most of the paper empty.
        date: ISO date printed on it, and on which what is due is judged.
        maker: who made it, as the title block says it.
        base_plans: whether base plans that may be reproduced lie under it.
        churchyard: the name of the one that is drawn, where several lie on the plan; empty for
            all of them.
    """

    paper: Paper | None = None
    scale: float | None = None
    date: str
    maker: str = ""
    base_plans: bool = False
    churchyard: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """One page: its size in millimetres, width first, and its ink."""

    width: float
    height: float
    ink: tuple[Ink, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Printed:
    """The pages of a sheet, and what whoever prints it should know.

    Args:
        title: of the document.
        scale: of its plan.
        remarks: characters in no font, labels left out, in plain words.
    """

    title: str
    paper: Paper
    scale: float
    pages: tuple[Page, ...]
    remarks: tuple[str, ...] = ()


Compose = Callable[[Plan, Asked, tuple[Backdrop, ...]], Printed]
"""Make the pages of a sheet.

Raises:
    CannotPrint: it does not fit; the text says which scale would.
"""


def not_loaded(plan: Plan, asked: Asked, backdrops: tuple[Backdrop, ...]) -> Printed:
    """Show what the function that makes a sheet takes and returns; see ``declared.late``."""
    raise NotImplementedError


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A drawing that can be printed.

    Args:
        name: on the command line: ``mowing``.
        title: in the window.
        purpose: one sentence on whom it is for.
        compose: makes its pages; loaded on first use.
    """

    name: str
    title: str
    purpose: str
    compose: Compose


def sheets() -> tuple[Sheet, ...]:
    """Return every sheet there is."""
    return declared("plan_editor.printing.sheets", "SHEET", Sheet)
