"""The verb ``contacts forget``: a person goes out of a plan, its history and its copies."""

from argparse import Namespace
from pathlib import Path

from plan_editor.cli.changing import AUTHOR, refuse_if_changed_elsewhere
from plan_editor.cli.verb import Said
from plan_editor.commands.forgetting import BEYOND, forget, person_named
from plan_editor.plan.document import Document
from plan_editor.storage.plan_file import PlanFile


def contacts_forget(asked: Namespace) -> Said:
    """Forget a person; exit with 1 where a copy in reach could not be cleared."""
    with PlanFile.open(Path(asked.plan)) as file:
        refuse_if_changed_elsewhere(file)
        document = Document(file.plan, journal=file, author=AUTHOR)
        person = person_named(file.plan, asked.person)
        done = forget(document, file, person)
    facts = {
        "papers": done.papers,
        "things": done.things,
        "cleared": [str(p) for p in done.cleared],
        "not_cleared": list(done.left),
        "look_at": list(done.look_at),
        "beyond": BEYOND,
    }
    return Said(text=done.told(), facts=facts, code=1 if done.left else 0)
