"""The sketches that the inspectors made, kept with the things that they show."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from hashlib import sha256
from pathlib import Path

from stones import memorial_id
from story import id_of

from plan_editor.edits.papers import AddPapers, paper_item
from plan_editor.kinds import paper, tree, wall
from plan_editor.plan.item import ItemId


@dataclass(frozen=True, slots=True, kw_only=True)
class Sketch:
    """One sketch: its file beside this script, what it is of, what it shows, and its day."""

    file: str
    target: ItemId
    called: str
    says: str
    date: str

    @property
    def content(self) -> bytes:
        """Its bytes."""
        return (Path(__file__).parent / self.file).read_bytes()


SKETCHES = (
    Sketch(
        file="harrowmere-c12.jpg",
        target=memorial_id("C 12"),
        called="memorial C 12",
        says="Leans 9° to the east; sketch",
        date="2026-03-14",
    ),
    Sketch(
        file="harrowmere-south-wall.jpg",
        target=id_of(wall.KIND, "south"),
        called="a wall",
        says="Open joints; sketch from the report",
        date="2024-06-18",
    ),
    Sketch(
        file="harrowmere-t29.jpg",
        target=id_of(tree.KIND, "29"),
        called="tree T29",
        says="Crab apple half thrown by the wind; sketch",
        date="2026-04-14",
    ),
)


def add_sketches() -> Iterator[AddPapers]:
    """Return the edits that add them, one for each thing."""
    for sketch in SKETCHES:
        kept = paper_item(
            sha256(sketch.content).hexdigest(),
            content_type="image/jpeg",
            file=sketch.file,
            says=sketch.says,
            date=sketch.date,
        )
        papers = (replace(kept, id=id_of(paper.KIND, sketch.file)),)
        yield AddPapers(target=sketch.target, papers=papers, called=sketch.called)
