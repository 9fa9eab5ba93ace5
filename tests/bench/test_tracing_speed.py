"""What the hand asks of a plan of any size, beside the bare index or the bare painter.

Each figure stands beside the least that the library alone could do for it in the same run: for
catching and choosing, one look through four columns of boxes; for a change, one repaint of the
same piece of the screen, and the change of a plan without a window.
"""

import gc
from collections.abc import Callable
from pathlib import Path
from time import perf_counter

import numpy as np
import pytest
import shapely
from grounds import churchyard, under
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from plan_editor.desktop.canvas.palette import LIGHT
from plan_editor.desktop.canvas.pointing import CATCH_PX
from plan_editor.desktop.canvas.view import Canvas
from plan_editor.drafting.tool import Act, Pointer
from plan_editor.drafting.tools import draw, select
from plan_editor.edits.places import Move
from plan_editor.kinds import grave
from plan_editor.plan.document import Document
from plan_editor.session import Session

pytestmark = pytest.mark.bench

TIMES = 60


def best(work: Callable[[], object], times: int = TIMES) -> float:
    """Return the shortest of some runs, in milliseconds."""
    found = []
    gc.collect()
    for _ in range(times):
        start = perf_counter()
        work()
        found.append((perf_counter() - start) * 1000)
    return min(found)


@pytest.mark.parametrize("graves", [1_000, 10_000, 50_000])
def test_the_hand_beside_the_bare_index_and_painter(
    qtbot: QtBot, tmp_path: Path, capsys: pytest.CaptureFixture[str], graves: int
) -> None:
    session = Session(Document(churchyard(graves)), first=select.TOOL)
    canvas = Canvas(session, LIGHT)
    qtbot.addWidget(canvas)
    canvas.resize(1600, 900)
    extent = session.document.index.boxes.extent()
    assert extent is not None
    canvas.set_backdrops([under(tmp_path, metres=extent[2] - extent[0])])
    with qtbot.waitExposed(canvas):
        canvas.show()
    some = list(session.document.plan.of(grave.KIND))
    middle = some[min(500, graves // 2)]
    canvas.go_to([middle.id])
    canvas.zoom(16.0 / canvas._sight.scale)
    canvas.viewport().repaint()
    columns = shapely.bounds([i.shape for i in session.document.plan.items.values()]).T.copy()
    assert middle.rectangle is not None
    east, north = middle.rectangle.east + 0.3, middle.rectangle.north + 0.2
    told = {
        "snap": (_snap(canvas, session, east, north), _bare_near(columns, east, north)),
        "box of 1,000": _box(canvas, session, columns, east, north),
        "one change": _change(canvas, session, middle.id),
    }
    with capsys.disabled():
        for what, (ours, bare) in told.items():
            print(  # noqa: T201
                f"\n{graves} graves, {what}: {ours:.3f} ms, bare {bare:.3f} ms,"
                f" {ours / bare:.1f} times",
                end="",
            )
        print()  # noqa: T201
    assert session.document.plan.count(grave.KIND) == graves


def _snap(canvas: Canvas, session: Session, east: float, north: float) -> float:
    """Return how long it takes to say what a pointer catches while a grave is drawn."""
    session.take_up(draw.TOOL, grave.KIND)
    taken = best(lambda: canvas._hand.point(east, north, catching=True))
    session.put_down()
    return taken


def _bare_near(columns: np.ndarray, east: float, north: float) -> float:
    reach = CATCH_PX / 16.0
    return best(lambda: np.flatnonzero(_within(columns, east, north, reach)))


def _within(columns: np.ndarray, east: float, north: float, half: float) -> np.ndarray:
    w, s, e, n = columns
    found: np.ndarray = (
        (w <= east + half) & (s <= north + half) & (e >= east - half) & (n >= north - half)
    )
    return found


def _box(
    canvas: Canvas, session: Session, columns: np.ndarray, east: float, north: float
) -> tuple[float, float]:
    """Return how long it takes to choose about 1,000 graves by a box and to paint them so.

    Beside it: the look through the boxes, and one repaint of the view.
    """
    half = 35.0

    def chosen() -> None:
        session.choose(())
        box = (east - half, north - half), (east + half, north + half)
        for act, place in ((Act.PRESS, box[0]), (Act.MOVE, box[1]), (Act.RELEASE, box[1])):
            session.point(Pointer(act=act, east=place[0], north=place[1], reach=0.3))
        canvas.viewport().repaint()

    def bare() -> None:
        np.flatnonzero(_within(columns, east, north, half))
        canvas.viewport().repaint()

    return best(chosen, 10), best(bare, 10)


def _change(canvas: Canvas, session: Session, item: str) -> tuple[float, float]:
    """Return how long a change takes until it is seen, and one repaint of that piece alone."""
    session.choose(())  # a thousand chosen things are painted anew with every change
    canvas.viewport().repaint()
    edit = Move(ids=(item,), east=0.01, north=0.0)  # type: ignore[arg-type]  # an id as text
    rect = canvas._navigation.rect(session.document.index.boxes.box(item), 14.0)  # type: ignore[arg-type]

    def changed() -> None:
        session.document.apply(edit)
        QApplication.processEvents()

    def bare() -> None:
        canvas.viewport().update(rect)
        QApplication.processEvents()

    return best(changed, 30), best(bare, 30)
