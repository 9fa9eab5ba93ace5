"""The jobs of the strip: what each is called, what it shows, what stands under the card."""

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtWidgets import QWidget

from plan_editor.declared import declared
from plan_editor.desktop.desk import Desk


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """What a job declares.

    Args:
        name: as tools name it: ``survey``.
        title: on the strip.
        icon: name of a drawing in ``resources/icons``.
        order: on the strip.
        help: one sentence.
        panel: makes what stands under the card.
        hides: names of kinds that are left out meanwhile.
        zones: whether the zones to keep off are shown.
    """

    name: str
    title: str
    icon: str
    order: int
    help: str
    panel: Callable[[Desk, QWidget], QWidget]
    hides: frozenset[str] = frozenset()
    zones: bool = False


def jobs() -> tuple[Job, ...]:
    """Return every job there is, from top to bottom."""
    found = declared("plan_editor.desktop.panels", "JOB", Job)
    return tuple(sorted(found, key=lambda j: j.order))
