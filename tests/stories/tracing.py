"""Traces the whole sample from its scan in the real window, and says how well that went.

By hand, under a virtual screen or without one (``QT_QPA_PLATFORM=offscreen``)::

    PYTHONPATH=sample_plans:tests/stories python -m tests.stories.tracing [--seed N] [--by-hand]

With ``--by-hand`` every grave is drawn by three clicks, without proposals.
Everything but the old plan and the marks is taken off a copy of the sample first. The script
clicks where the scan is inked, up to 2 pixels beside it, by real events of mouse and keys; it
knows where the truth lies in the scan, as a user sees it there.
"""

import argparse
import os
import shutil
import sys
import tempfile
from collections.abc import Sequence
from copy import copy
from pathlib import Path

from counted_hand import Effort
from graves import Space, spaces
from old_paper import OldPaper
from PySide6.QtWidgets import QApplication
from traced_figures import Figures, compared, table
from tracing_graves import GraveTracer, first_examples, wait_until
from tracing_things import trace_things

from plan_editor.desktop.app import Application
from plan_editor.desktop.window import PlanWindow
from plan_editor.edits.basic import Remove
from plan_editor.kinds import base_plan, mark
from plan_editor.plan.document import Document
from plan_editor.resources import sample
from plan_editor.storage.plan_file import PlanFile

SIZE = (1600, 1000)
KEPT = (base_plan.KIND, mark.KIND)


def untraced(path: Path) -> None:
    """Write a copy of the sample on which nothing but the old plan and the marks is left."""
    shutil.copyfile(sample("harrowmere.gpkg"), path)
    with PlanFile.open(path) as kept:
        document = Document(kept.plan, journal=kept)
        gone = tuple(i.id for i in kept.plan.items.values() if i.kind not in KEPT)
        document.apply(Remove(ids=gone))
        kept.save()


def on_the_scan() -> list[Space]:
    """Return the graves that had been dug when the old plan was drawn."""
    return [s for s in spaces() if s.in_1962]


def begun(window: PlanWindow, seed: int) -> GraveTracer:
    """Return who traces, sitting before the window."""
    window.resize(*SIZE)
    window.go("trace")
    tracer = GraveTracer(window, OldPaper(sample("harrowmere-1962.jpg"), seed), on_the_scan())
    wait_until(lambda: tracer.hand.canvas.width() > SIZE[0] // 2)
    return tracer


def trace_graves(tracer: GraveTracer) -> Effort:
    """Trace the graves as fast as it goes; return what the examples took."""
    tracer.one_by_one(first_examples(tracer.graves))
    examples = copy(tracer.hand.effort)
    tracer.look_for_graves()
    tracer.go_through()
    missing = [s for s in tracer.graves if s.number not in tracer.done]
    tracer.told.append(f"not proposed, drawn by hand: {len(missing)}")
    if missing:
        tracer.one_by_one(missing)
    return examples


def trace_by_hand(tracer: GraveTracer, graves: Sequence[Space]) -> Effort:
    """Trace graves by three clicks each; none is an example."""
    tracer.one_by_one(graves)
    return Effort()


def figures_of(tracer: GraveTracer, wanted: Sequence[Space]) -> Figures:
    """Return how well some graves were traced."""
    return compared(tracer.session.document.plan, wanted)


def _trace(folder: Path, qt: QApplication, *, seed: int, by_hand: bool) -> int:
    plan = folder / "harrowmere.gpkg"
    untraced(plan)
    house = Application(qt)
    house.start([str(plan)])
    window = house.windows[-1]
    wait_until(lambda: not window.background.title)
    tracer = begun(window, seed)
    examples = trace_by_hand(tracer, tracer.graves) if by_hand else trace_graves(tracer)
    figures = figures_of(tracer, tracer.graves)
    sys.stdout.write(f"seed {seed}\n{table(figures, examples, tracer.hand.effort)}\n")
    things = () if by_hand else trace_things(tracer)
    sys.stdout.write("\n".join((*tracer.told, *things, "")))
    window.saving.save()
    wait_until(lambda: not window.background.title)
    house.quit()
    return 0


def main(arguments: Sequence[str] | None = None) -> int:
    """Trace it, and say how well that went."""
    told = argparse.ArgumentParser(description=__doc__)
    told.add_argument("--seed", type=int, default=1)
    told.add_argument("--by-hand", action="store_true")
    given = told.parse_args(arguments)
    with tempfile.TemporaryDirectory() as home:
        for name in ("STATE", "CACHE", "CONFIG", "DATA"):
            os.environ[f"XDG_{name}_HOME"] = home
        qt = QApplication(sys.argv[:1])
        return _trace(Path(home), qt, seed=given.seed, by_hand=given.by_hand)


if __name__ == "__main__":
    sys.exit(main())
