"""An application whose questions are answered from a script, and a new plan in a window."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication
from scripted import Script

from plan_editor.desktop.app import Application
from plan_editor.desktop.window import PlanWindow
from plan_editor.storage.plan_file import PlanFile
from plan_editor.survey.grids.grid import Grid


@pytest.fixture
def script() -> Script:
    return Script()


@pytest.fixture
def house(qapp: QApplication, script: Script) -> Iterator[Application]:
    made = Application(qapp, ask=script.ask)
    yield made
    for window in tuple(made.windows):
        window.background.end()
        script.answers.append(1)  # close without saving
        window.close()

    made.deleteLater()


@pytest.fixture
def plan_path(tmp_path: Path) -> Path:
    path = tmp_path / "elfric.gpkg"
    grid = Grid(crs="EPSG:27700", east=553000.0, north=421000.0)
    PlanFile.create(path, name="St Elfric, Harrowmere", grid=grid).close()
    return path


@pytest.fixture
def window(house: Application, plan_path: Path) -> PlanWindow:
    house.open_plan(plan_path)
    made = house.windows[-1]
    made.resize(1600, 1000)
    return made
