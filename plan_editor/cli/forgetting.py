"""The verb ``contacts forget``: a person goes out of a plan, its history and its copies."""

from argparse import Namespace
from pathlib import Path

from plan_editor.cli.changing import AUTHOR, refuse_if_changed_elsewhere
from plan_editor.cli.verb import Said
from plan_editor.commands.before_forgetting import before_forgetting, listed
from plan_editor.commands.forgetting import (
    BEYOND,
    Forgotten,
    forget,
    person_named,
)
from plan_editor.plan.document import Document
from plan_editor.storage.plan_file import PlanFile

_NOT_YET = (
    "Nobody was forgotten, and nothing was changed. Correct what is named above in the window,"
    " then do this again; if it may stay as it is, add --anyway."
)


def contacts_forget(asked: Namespace) -> Said:
    """Forget a person; exit with 1 where something is to be seen to before or after."""
    with PlanFile.open(Path(asked.plan)) as file:
        refuse_if_changed_elsewhere(file)
        document = Document(file.plan, journal=file, author=AUTHOR)
        person = person_named(file.plan, asked.person)
        first = before_forgetting(file, file.plan, person)
        if first and not asked.anyway:
            return _not_yet(first)
        return _said(forget(document, file, person), first)


def _not_yet(first: tuple[str, ...]) -> Said:
    facts = {"forgotten": False, "correct_first": list(first)}
    return Said(text=f"{listed(first)}\n{_NOT_YET}", facts=facts, code=1)


def _said(done: Forgotten, first: tuple[str, ...]) -> Said:
    facts = {
        "forgotten": True,
        "correct_first": list(first),
        "papers": done.papers,
        "things": done.things,
        "cleared": [str(p) for p in done.cleared],
        "not_cleared": list(done.left),
        "look_at": list(done.look_at),
        "beyond": BEYOND,
    }
    return Said(text=done.told(), facts=facts, code=1 if done.left else 0)
