"""What the log says of one thing, and its photographs, for a sheet about it."""

from collections.abc import Iterable
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from plan_editor.errors import PlanEditorError
from plan_editor.plan.item import ItemId
from plan_editor.plan.media import Kept
from plan_editor.plan.plan import Plan
from plan_editor.printing.sheet import Chronicle, Step
from plan_editor.records.chronology import concerned
from plan_editor.scans.decoding import decoded
from plan_editor.storage.chains import ChainEntry, read_chain


def chronicle_of(path: Path, plan: Plan, thing: ItemId) -> Chronicle:
    """Return what the log of a plan's file says of a thing, its chain worked out again.

    Raises:
        FileProblem: the file cannot be read.
    """
    near = (item.id for item in concerned(plan, thing, contacts=True))
    chain = read_chain(path, thing, frozenset(near))
    return Chronicle(
        steps=tuple(map(_step, chain.entries)),
        head=chain.head,
        entries=chain.count,
        whole=chain.whole,
        forgotten=chain.forgotten,
    )


def pictures_of(
    media: Kept, digests: Iterable[str]
) -> tuple[dict[str, NDArray[np.uint8]], tuple[str, ...]]:
    """Return photographs by their digests, and a sentence for each that cannot be shown."""
    found: dict[str, NDArray[np.uint8]] = {}
    remarks = []
    for digest in digests:
        try:
            picture = decoded(media.read(digest))
        except PlanEditorError as problem:
            remarks.append(f"A photograph is left out: {problem}")
        else:
            found[digest] = picture.strip(0, picture.height)
    return found, tuple(remarks)


def _step(entry: ChainEntry) -> Step:
    back = f"Taken back (no. {entry.takes_back}): " if entry.takes_back is not None else ""
    return Step(
        number=entry.number,
        when=entry.when,
        author=entry.author,
        title=f"{back}{entry.title}",
        link=entry.link,
    )
