"""Builds the sample: ``python sample_plans/build.py [FOLDER]``.

Everything is drawn by seeded chance, so that it comes out the same each time. Without a folder
the files beside this script are replaced.
"""

import shutil
import sys
from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory

from burial_register import FILE as REGISTER
from burial_register import register_file
from field_books import FILE as TIES
from field_books import taken_in, ties_file
from gnss import FILE as GNSS
from gnss import gnss_file
from old_plan import FILE, clicked, scan, unplaced
from papers_kept import SKETCHES, add_sketches
from register_taken_in import MatchWhatIsSure, as_the_book_has_it, taken_in_register
from story import GRID, NAME, dice
from whole import OLD_PLAN, steps_of_the_work

from plan_editor.edits.base_plans import PlaceBasePlan
from plan_editor.edits.basic import Add
from plan_editor.plan.document import Document
from plan_editor.plan.edit import Edit
from plan_editor.storage.leaves import SALT_BYTES
from plan_editor.storage.plan_file import PlanFile
from plan_editor.survey.fits.models import Model

PLAN = "harrowmere.gpkg"
FIRST_EVENING = datetime(2025, 10, 6, 19, 30, tzinfo=UTC)
AUTHOR = "Churchwarden"
_DRAWN = 12
"""Evenings until everything is drawn that the round went past."""

_ROUND_ENTERED = datetime(2026, 3, 30, 19, 30, tzinfo=UTC)
_WEEK_IN_MAY = datetime(2026, 5, 12, 19, 0, tzinfo=UTC)


def build(folder: Path) -> tuple[Path, ...]:
    """Make the plan and the files beside it in a folder and return their paths.

    Raises:
        FileProblem: the plan could not be written.
        OSError: the folder could not be written.
    """
    folder.mkdir(parents=True, exist_ok=True)
    picture = scan()
    # saving leaves the previous file beside the plan: it is made elsewhere, and moved whole
    with TemporaryDirectory() as elsewhere:
        plan = Path(elsewhere) / PLAN
        _write(plan, picture)
        shutil.move(plan, folder / PLAN)
    (folder / FILE).write_bytes(picture)
    (folder / GNSS).write_bytes(gnss_file())
    (folder / TIES).write_bytes(ties_file())
    (folder / REGISTER).write_bytes(register_file())
    return tuple(folder / name for name in (PLAN, FILE, GNSS, TIES, REGISTER))


def edits(digest: str) -> Iterator[Edit]:
    """Return what was done at the desk, one edit an evening."""
    yield Add(items=(unplaced(digest),))
    yield PlaceBasePlan(id=OLD_PLAN, control=clicked(), model=Model.WARP)
    marks, *others = steps_of_the_work()
    yield Add(items=marks)
    yield taken_in()
    for items in others:
        yield Add(items=items)
    yield taken_in_register()
    yield MatchWhatIsSure()
    yield as_the_book_has_it()
    yield from add_sketches()


def evenings() -> Callable[[], datetime]:
    """Return a clock that goes on to the next evening at the desk each time it is looked at.

    In the winter the plan is drawn, an evening a fortnight; the round of March is entered when
    it is over, and everything since in one week of May. Nothing is written down before its day.
    """
    winter = [FIRST_EVENING + timedelta(days=14 * n) for n in range(_DRAWN)]
    week = [_WEEK_IN_MAY + timedelta(days=n // 3, minutes=40 * (n % 3)) for n in range(30)]
    looked = iter((*winter, _ROUND_ENTERED, *week))
    return lambda: next(looked)


def salts() -> Callable[[], str]:
    """Return a source of salts, the same ones each time: the sample has no secrets."""
    drawn = dice("salts")
    return lambda: drawn.randbytes(SALT_BYTES).hex()


def _write(path: Path, picture: bytes) -> None:
    with PlanFile.create(path, name=NAME, grid=GRID) as kept:
        digest = kept.add(picture, content_type="image/jpeg", name=FILE)
        for sketch in SKETCHES:
            kept.add(sketch.content, content_type="image/jpeg", name=sketch.file)
        with kept.alone("No plan was made.") as copy:
            copy.salt = salts()
        document = Document(kept.plan, journal=kept, author=AUTHOR, clock=evenings())
        for edit in edits(digest):
            document.apply(edit)
        kept.save()


if __name__ == "__main__":
    chosen = Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).parent
    for made in build(chosen):
        sys.stdout.write(f"{made}\n")
