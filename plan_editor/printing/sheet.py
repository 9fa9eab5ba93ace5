"""What a sheet declares, the paper it may lie on, and the list of sheets."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from enum import Enum

import numpy as np
from numpy.typing import NDArray

from plan_editor.declared import declared
from plan_editor.drawing.backdrop import Backdrop
from plan_editor.drawing.ink import Ink
from plan_editor.plan.item import ItemId
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
        item: what the sheet is about, of one of the kinds that it names; None for none.
        contacts: whether the names of living people may stand on it.
    """

    paper: Paper | None = None
    scale: float | None = None
    date: str
    maker: str = ""
    base_plans: bool = False
    churchyard: str = ""
    item: ItemId | None = None
    contacts: bool = False


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
        scale: of its plan; None where it holds none.
        remarks: characters in no font, labels left out, in plain words.
    """

    title: str
    paper: Paper
    scale: float | None
    pages: tuple[Page, ...]
    remarks: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One entry of the plan's log that concerns the thing a sheet is about.

    Args:
        number: in the log.
        when: ISO date and time, UTC.
        author, title: who did what.
        link: digest of the log up to it.
    """

    number: int
    when: str
    author: str
    title: str
    link: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Chronicle:
    """What the plan's log says of one thing.

    Args:
        steps: oldest first.
        head: digest of the whole log, in hexadecimal; empty where there is no log.
        entries: how many the whole log has.
        whole: whether every link of it was worked out again and agrees.
        forgotten: of how many changes to the thing the words were removed for good, with only
            their digest left.
    """

    steps: tuple[Step, ...] = ()
    head: str = ""
    entries: int = 0
    whole: bool = True
    forgotten: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Supplied:
    """What a sheet is given beside the plan.

    Args:
        backdrops: base plans that may be reproduced, where they are wanted.
        pictures: photographs by their digests, as rows of 8-bit grey (h, w) or RGB (h, w, 3).
        chronicle: of the item that the sheet is about, where the sheet wants it.
    """

    backdrops: tuple[Backdrop, ...] = ()
    pictures: Mapping[str, NDArray[np.uint8]] = field(default_factory=dict)
    chronicle: Chronicle = field(default_factory=Chronicle)


Compose = Callable[[Plan, Asked, Supplied], Printed]
"""Make the pages of a sheet.

Raises:
    CannotPrint: it does not fit; the text says which scale would.
"""


def not_loaded(plan: Plan, asked: Asked, supplied: Supplied) -> Printed:
    """Show what the function that makes a sheet takes and returns; see ``declared.late``."""
    raise NotImplementedError


def no_pictures(plan: Plan, asked: Asked) -> tuple[str, ...]:
    """Return the digests of no photographs."""
    del plan, asked
    return ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A drawing that can be printed.

    Args:
        name: on the command line: ``mowing``.
        title: in the window.
        order: of those offered; low comes first.
        purpose: one sentence on whom it is for.
        compose: makes its pages; loaded on first use.
        about: names of the kinds of things of which it can be printed; empty where it is of the
            whole plan.
        optional: whether it can also be printed of no single thing.
        pictures: returns the digests of the photographs that it shows.
        chronicle: whether it shows what the log says of its thing.
    """

    name: str
    title: str
    order: int
    purpose: str
    compose: Compose
    about: tuple[str, ...] = ()
    optional: bool = False
    pictures: Callable[[Plan, Asked], tuple[str, ...]] = no_pictures
    chronicle: bool = False


def sheets() -> tuple[Sheet, ...]:
    """Return every sheet there is, in the order in which they are offered."""
    found = declared("plan_editor.printing.sheets", "SHEET", Sheet)
    return tuple(sorted(found, key=lambda s: s.order))
