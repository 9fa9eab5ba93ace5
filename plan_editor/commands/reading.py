"""A plan read from its file, and what whoever relies on it should know."""

from dataclasses import dataclass
from pathlib import Path

from plan_editor.plan.plan import Plan
from plan_editor.storage.loading import read_with_differences


@dataclass(frozen=True, slots=True)
class Read:
    """A plan as its log tells it, and sentences about what is not in it."""

    plan: Plan
    remarks: tuple[str, ...]


def read(path: Path) -> Read:
    """Return the plan in a file, or in a working copy.

    What another program changed is left out until somebody has taken it in; that is told.

    Raises:
        FileProblem: it is not there, not a plan, damaged, or not to be trusted.
    """
    found = read_with_differences(path)
    differences = found.differences
    count = len(differences.changes) + len(differences.odd) + len(differences.notes)
    return Read(found.plan, (_left_out(path, count),) if count else ())


def _left_out(path: Path, count: int) -> str:
    things, they = ("1 thing", "it is") if count == 1 else (f"{count} things", "they are")
    return (
        f"Another program changed {things} in {path.name}; {they} left out here. Open the plan"
        " in the window, and take that in or refuse it."
    )
