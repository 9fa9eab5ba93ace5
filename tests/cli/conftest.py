from pathlib import Path

import pytest
import shapely

from plan_editor.cli.line import run
from plan_editor.edits.basic import Add
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import grave, inspection, memorial, path, wall
from plan_editor.kinds.inspection import InspectionDetails, Result
from plan_editor.plan.document import Document
from plan_editor.plan.item import new_item
from plan_editor.storage.plan_file import PlanFile
from plan_editor.survey.grids.grid import Grid

GRID = Grid(crs="EPSG:27700", east=553100.0, north=421000.0)


@pytest.fixture
def plan(tmp_path) -> Path:
    """A saved plan with a grave, an unsafe stone of 1.2 m on it, a path and a wall of 40 m."""
    stone = new_item(
        memorial.KIND,
        Rectangle(east=10.0, north=20.0, width=0.8, length=0.2),
        details=memorial.MemorialDetails(height_m=1.2),
        number="A 1",
    )
    items = (
        new_item(
            grave.KIND, Rectangle(east=10, north=19.8, width=1.2, length=2.5), number="A 1"
        ),
        stone,
        new_item(
            inspection.KIND,
            details=InspectionDetails(
                target=stone.id, date="2026-03-14", result=Result.IMMEDIATE
            ),
        ),
        new_item(
            path.KIND,
            shapely.LineString([(0, 0), (0, 30)]),
            details=path.PathDetails(width_m=1.5),
        ),
        new_item(wall.KIND, shapely.LineString([(0, 0), (40, 0)])),
    )
    where = tmp_path / "ground.gpkg"
    with PlanFile.create(where, name="St Ŵyn", grid=GRID) as file:
        Document(file.plan, journal=file, author="a test").apply(Add(items=items))
        file.save()
    return where


@pytest.fixture
def said(capsys):
    """Run words; return the exit code, what was said, and what was complained of."""

    def call(*words: object) -> tuple[int, str, str]:
        code = run([str(word) for word in words])
        out, err = capsys.readouterr()
        return code, out, err

    return call
