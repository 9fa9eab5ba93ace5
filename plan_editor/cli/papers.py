"""Verbs for photographs and papers."""

from argparse import Namespace
from pathlib import Path

from plan_editor.cli.changing import AUTHOR, refuse_if_changed_elsewhere
from plan_editor.cli.verb import Said
from plan_editor.commands.making import KeptIn
from plan_editor.commands.naming import item_named
from plan_editor.commands.papers import Words, attach_files
from plan_editor.commands.papers_out import write_papers
from plan_editor.commands.reading import read
from plan_editor.plan.document import Document
from plan_editor.storage.plan_file import PlanFile


def paper_add(asked: Namespace) -> Said:
    """Keep photographs and papers of a thing."""
    paths = [Path(f) for f in asked.files]
    with PlanFile.open(Path(asked.plan)) as file:
        refuse_if_changed_elsewhere(file)
        document = Document(file.plan, journal=file, author=AUTHOR)
        thing = item_named(file.plan, asked.item)
        words = Words(says=asked.says, sort=asked.sort)
        ready = attach_files(document, file, thing.id, paths, words)
        remarks = file.save()
    head = f"Kept with {thing.called()}:"
    return Said(
        text="\n".join((head, *(r.text for r in ready), *remarks)),
        facts={
            "item": thing.id,
            "papers": [
                {"id": r.item.id, "digest": r.item.details.digest, "date": r.item.details.date}
                for r in ready
            ],
        },
    )


def paper_write(asked: Namespace) -> Said:
    """Write the photographs and papers of a thing into a folder."""
    path = Path(asked.plan)
    plan = read(path).plan
    thing = item_named(plan, asked.item)
    written = write_papers(plan, KeptIn(path), thing.id, Path(asked.out))
    text = "\n".join(map(str, written)) or f"Nothing is kept of {thing.called()}."
    return Said(text=text, facts={"item": thing.id, "files": [str(p) for p in written]})
