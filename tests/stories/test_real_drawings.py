"""Drawings that nobody here made, laid under the ground, traced and printed.

They are test files of the ezdxf source distribution; each is downloaded, never kept here.
"""

import numpy as np
import pdfplumber
import pytest

from plan_editor.commands.backdrops import drawing_in
from plan_editor.commands.laying import lay
from plan_editor.commands.making import make_drawing, make_sheet
from plan_editor.drafting.tool import Act, Pointer, tools
from plan_editor.edits.basic import Describe
from plan_editor.kinds import path
from plan_editor.plan.document import Document
from plan_editor.plan.kind import Form
from plan_editor.printing.sheet import Asked, Paper
from plan_editor.session import Session
from plan_editor.storage.loading import read_plan
from plan_editor.storage.plan_file import PlanFile
from plan_editor.survey.grids.grid import Grid

ASKED = Asked(paper=Paper.A3, date="2026-05-16", base_plans=True)
DRAWINGS = (
    "Leica_Disto_S910.dxf",
    "custom_blocks.dxf",
    "AC1003_LINE_Example.dxf",
    "issue1106.dxf",
)


@pytest.fixture(params=DRAWINGS)
def drawing(request, ezdxf_sources):
    return ezdxf_sources / "integration_tests" / "data" / request.param


def laid_under(plan, drawing):
    """Lay a drawing that may be reproduced under a new plan; return file and session."""
    file = PlanFile.create(plan, name="Real ground", grid=Grid())
    document = Document(file.plan, journal=file)
    done = lay(document, file, drawing, name=drawing.stem)
    assert done.placed
    document.apply(Describe(ids=(done.item,), details=(("reproducible", True),)))
    select = next(t for t in tools() if t.name == "select")
    return file, Session(document, first=select, file=file)


def trace(session, corners):
    """Trace a path through corners with the drawing tool."""
    draw = next(t for t in tools() if t.name == "draw")
    session.take_up(draw, kind=path.KIND, form=Form.LINE)
    for east, north in corners:
        session.point(Pointer(act=Act.PRESS, east=east, north=north))
    session.point(Pointer(act=Act.FINISH, east=corners[-1][0], north=corners[-1][1]))


def longest_side(lines):
    """Return the two ends of the longest straight side of some lines."""
    sides = [line[i : i + 2] for line in lines for i in range(len(line) - 1)]
    return max(sides, key=lambda side: np.hypot(*(side[1] - side[0])))


def strokes(sheet):
    """Return how many lines and curves the first page of a PDF holds."""
    with sheet.open("rb") as stream, pdfplumber.open(stream) as pdf:
        page = pdf.pages[0]
        return len(page.lines) + len(page.curves) + len(page.rects)


def test_a_real_drawing_is_laid_traced_and_printed(tmp_path, drawing):
    plan = tmp_path / "real.gpkg"
    file, session = laid_under(plan, drawing)
    content = drawing_in(drawing.read_bytes(), ".dxf")
    corners = longest_side(content.line_work.lines) * content.metres_per_unit
    with file:
        trace(session, [tuple(map(float, corner)) for corner in corners])
        file.save()
    (traced,) = read_plan(plan).of(path.KIND)
    # the length of what was traced is the distance in the drawing, to the stored millimetre
    wanted = float(np.hypot(*(corners[1] - corners[0])))
    assert traced.shape.length == pytest.approx(wanted, abs=0.0015)

    sheet = tmp_path / "real.pdf"
    made = make_sheet(plan, "ground", ASKED, sheet)
    bare = tmp_path / "bare.pdf"
    make_sheet(plan, "ground", Asked(paper=Paper.A3, date="2026-05-16", scale=made.scale), bare)
    assert strokes(sheet) > strokes(bare)

    make_drawing(plan, "dxf", tmp_path / "real.dxf")
    assert (tmp_path / "real.dxf").stat().st_size > 0
