"""The small picture of a sheet, and what is remembered from one start to the next."""

from pathlib import Path

import numpy as np
import pytest
from platformdirs import user_config_path
from PySide6.QtGui import QColor, QImage
from PySide6.QtWidgets import QApplication

from plan_editor.desktop import preferences
from plan_editor.desktop.preferences import MOST_RECENT, Preferences
from plan_editor.desktop.preview import draw_page, draw_sheet
from plan_editor.drawing.ink import Fill
from plan_editor.printing.sheet import Asked, Page, sheets
from plan_editor.resources import sample


def test_a_page_lies_the_right_way_up_and_at_scale(qapp: QApplication) -> None:
    # 10 by 10 mm of ink in the upper right corner of a sheet of 200 by 100 mm
    corner = np.array([(190.0, 90.0), (200.0, 90.0), (200.0, 100.0), (190.0, 100.0)])
    ink = (Fill(rings=(corner,), colour="#000000"),)
    picture = draw_page(Page(width=200.0, height=100.0, ink=ink), side=400)
    assert (picture.width(), picture.height()) == (400, 200)
    black, white = QColor("#000000"), QColor("#FFFFFF")
    assert picture.pixelColor(390, 10) == black
    assert picture.pixelColor(378, 10) == white
    assert picture.pixelColor(390, 22) == white
    assert picture.pixelColor(390, 190) == white


@pytest.mark.parametrize("name", [s.name for s in sheets() if not s.about])
def test_every_sheet_of_the_sample_has_a_picture(qapp: QApplication, name: str) -> None:
    asked = Asked(date="2026-05-16")
    png, facts = draw_sheet(sample("harrowmere.gpkg"), name, asked, 300)
    picture = QImage.fromData(png)
    assert max(picture.width(), picture.height()) == 300
    assert "page" in facts
    assert ("1:" in facts) == (name != "month")


def test_what_is_remembered_comes_back(home: Path) -> None:
    assert preferences.load() == Preferences()
    liked = (
        Preferences(colours="dark", maker="R. Sexton")
        .packed(b"\x00\x01")
        .having_opened(Path("/plans/elfric.gpkg"))
    )
    preferences.keep(liked)
    assert preferences.load() == liked
    assert preferences.load().unpacked() == b"\x00\x01"


def test_the_latest_plan_stands_first_and_only_once(home: Path) -> None:
    liked = Preferences()
    for number in range(MOST_RECENT + 3):
        liked = liked.having_opened(Path(f"/plans/{number}.gpkg"))
    liked = liked.having_opened(Path("/plans/7.gpkg"))
    assert len(liked.recent) == MOST_RECENT
    assert liked.recent[0] == str(Path("/plans/7.gpkg").absolute())
    assert len(set(liked.recent)) == MOST_RECENT


@pytest.mark.parametrize("kept", ["", "[]", "{", '{"colours": 3, "unknown": "x"}'])
def test_what_cannot_be_read_is_forgotten_without_harm(home: Path, kept: str) -> None:
    preferences.keep(Preferences(colours="dark"))
    (file,) = home.rglob("preferences.json")
    file.write_text(kept, encoding="utf-8")
    assert preferences.load() == Preferences()


def test_where_nothing_can_be_written_nothing_is_lost(home: Path) -> None:
    folder = user_config_path(preferences.APPLICATION, appauthor=False)
    folder.parent.mkdir(parents=True)
    folder.write_text("in the way", encoding="utf-8")
    preferences.keep(Preferences(colours="dark"))
    assert preferences.load() == Preferences()
