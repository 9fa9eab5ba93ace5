"""The sections of which the panels of some jobs are made: base plans, marks, what to draw."""

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtWidgets import QWidget

from plan_editor.declared import declared
from plan_editor.desktop.desk import Desk


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """One section, which opens and closes under its title.

    Args:
        name: for tests and for whoever wants it opened.
        job: in the panel of which job it stands.
        title: what stands on it.
        order: from top to bottom.
        help: one sentence.
        widget: makes what it holds. Its desk's ground keeps a sketch back until the section is
            open, so a section may sketch whenever it likes, and is never in another's way.
            A signal of text called ``noted`` says what is to stand beside the title.
    """

    name: str
    job: str = "survey"
    title: str
    order: int
    help: str
    widget: Callable[[Desk, QWidget], QWidget]


def sections(job: str) -> tuple[Section, ...]:
    """Return the sections of a job, from top to bottom."""
    found = declared("plan_editor.desktop.sections", "SECTION", Section)
    return tuple(sorted((s for s in found if s.job == job), key=lambda s: s.order))
