"""How long a sheet of 5,000 graves takes, against the PDF library drawing the same ink."""

import statistics
import time
from collections.abc import Callable, Sequence
from io import BytesIO
from pathlib import Path

import pytest
from reportlab.lib.colors import HexColor
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas
from shapely import box

from plan_editor.drawing.ink import Anchor, Clipped, Fill, Ink, Picture, Stroke, Text
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import grave, wall
from plan_editor.kinds.grave import GraveDetails, State
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.printing.pdf import write
from plan_editor.printing.sheet import Asked, Paper, Printed, Supplied
from plan_editor.printing.sheets import ground
from plan_editor.resources import resource

GOAL = 1.5
RUNS = 7
MM = 72.0 / 25.4
ASKED = Asked(paper=Paper.A1, scale=250.0, date="2026-06-01", maker="bench")
STATES = (State.OCCUPIED, State.FREE, State.RESERVED, State.CLOSED)


def five_thousand() -> Plan:
    graves = (
        new_item(
            grave.KIND,
            Rectangle(east=3.0 * row, north=1.2 * space, width=1.0, length=2.2),
            details=GraveDetails(state=STATES[(row * 7 + space) % 4]),
            number=f"{chr(65 + row % 26)}{row // 26} {space}",
        )
        for row in range(50)
        for space in range(100)
    )
    return plan_of([*graves, new_item(wall.KIND, box(-1, -1, 151, 121))], name="Five thousand")


def bare(printed: Printed) -> bytes:
    """Draw the same ink as whoever knows the library would: a path a line, a string a text."""
    file = BytesIO()
    canvas = Canvas(file, invariant=1, pageCompression=1, initialFontName="plain")
    for page in printed.pages:
        canvas.setPageSize((page.width * MM, page.height * MM))
        canvas.scale(MM, MM)
        draw(canvas, page.ink)
        canvas.showPage()
    canvas.save()
    return file.getvalue()


def draw(canvas: Canvas, ink: Sequence[Ink]) -> None:
    for piece in ink:
        match piece:
            case Stroke():
                canvas.setLineWidth(piece.pen.width)
                canvas.setStrokeColor(HexColor(piece.pen.colour))
                canvas.setDash(list(piece.pen.dash))
                path = canvas.beginPath()
                outline(path, piece.lines, closed=piece.closed)
                canvas.drawPath(path, stroke=1, fill=0)
            case Fill():
                canvas.setFillColor(HexColor(piece.colour))
                path = canvas.beginPath()
                outline(path, piece.rings, closed=True)
                canvas.drawPath(path, stroke=0, fill=1, fillMode=0)
            case Text():
                letter(canvas, piece)
            case Clipped():
                left, bottom, right, top = piece.box
                canvas.saveState()
                path = canvas.beginPath()
                path.rect(left, bottom, right - left, top - bottom)
                canvas.clipPath(path, stroke=0, fill=0)
                draw(canvas, piece.ink)
                canvas.restoreState()
            case Picture():
                raise AssertionError("there is no base plan here")


def outline(path: object, lines: Sequence[object], *, closed: bool) -> None:
    for line in lines:
        (x, y), *rest = line.tolist()
        path.moveTo(x, y)
        for further in rest:
            path.lineTo(*further)
        if closed:
            path.close()


def letter(canvas: Canvas, text: Text) -> None:
    canvas.saveState()
    canvas.translate(text.x, text.y)
    canvas.rotate(text.turn_deg)
    canvas.setFont("plain", text.size)
    put = {
        Anchor.LEFT: canvas.drawString,
        Anchor.MIDDLE: canvas.drawCentredString,
        Anchor.RIGHT: canvas.drawRightString,
    }[text.anchor]
    if text.halo:
        canvas.setLineWidth(2 * text.halo)
        canvas.setStrokeColor(HexColor("#FFFFFF"))
        put(0, 0, text.text, mode=1)
    canvas.setFillColor(HexColor(text.colour))
    put(0, 0, text.text)
    canvas.restoreState()


def seconds(run: Callable[[], object]) -> float:
    start = time.perf_counter()
    run()
    return time.perf_counter() - start


@pytest.mark.bench
def test_a_sheet_of_5000_graves_beside_the_bare_library(
    tmp_path: Path,
) -> None:
    plan, out = five_thousand(), tmp_path / "ground.pdf"
    pdfmetrics.registerFont(TTFont("plain", str(resource("fonts/SourceSans3-Regular.ttf"))))

    def whole() -> None:
        assert write(ground.SHEET.compose(plan, ASKED, Supplied()), out)

    whole()
    printed = ground.SHEET.compose(plan, ASKED, Supplied())
    ours, theirs = [], []
    for _ in range(RUNS):
        theirs.append(seconds(lambda: (tmp_path / "bare.pdf").write_bytes(bare(printed))))
        ours.append(seconds(whole))
    ratio = statistics.median(ours) / statistics.median(theirs)
    print(  # noqa: T201  # the figure is what the test is for
        f"\nPDF of 5,000 graves: {statistics.median(ours):.3f} s, bare library "
        f"{statistics.median(theirs):.3f} s, ratio {ratio:.2f} (goal {GOAL})"
    )
