"""What a verb of the command line declares, and the list of verbs. No geometry is imported."""

from argparse import ArgumentParser, Namespace
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from plan_editor.declared import declared


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """What a verb answers.

    Args:
        text: for a person.
        facts: the same for a program, as JSON.
        code: 0 done; 1 the answer is no, something is due or something differs.
    """

    text: str
    facts: dict[str, Any] = field(default_factory=dict)
    code: int = 0


Run = Callable[[Namespace], Said]
"""Do what the verb says.

Raises:
    PlanEditorError: it could not be done; the text says what, where, and what to do.
"""


def unlike(asked: Namespace) -> Said:
    """Stand for any ``Run`` where only its type is wanted."""
    return Said(text=str(asked))


@dataclass(frozen=True, slots=True, kw_only=True)
class Verb:
    """One verb.

    Args:
        name: as typed; two words for a verb of a family: ``base add``.
        title: one line of help.
        arguments: adds what it takes to a parser.
        run: does it; loaded on first use.
        order: in the help.
    """

    name: str
    title: str
    arguments: Callable[[ArgumentParser], None]
    run: Run
    order: int = 50


def verbs() -> tuple[Verb, ...]:
    """Return every verb there is, in the order of the help."""
    found = declared("plan_editor.cli.verbs", "VERB", Verb)
    return tuple(sorted(found, key=lambda v: (v.order, v.name)))
