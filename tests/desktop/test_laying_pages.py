"""A file of several pages laid in the window: which one is asked, and asked once."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PIL import Image
from PySide6.QtCore import QObject, QTimer
from PySide6.QtWidgets import QApplication, QInputDialog, QWidget
from pytestqt.qtbot import QtBot

from plan_editor.commands.command import View
from plan_editor.desktop.ask import WindowAsk
from plan_editor.desktop.background import Background
from plan_editor.desktop.laying import Laying
from plan_editor.drafting.tools import select
from plan_editor.plan.document import Document
from plan_editor.plan.item import BASE_PLAN
from plan_editor.session import Session
from plan_editor.storage.plan_file import PlanFile

WAIT = 60_000


class Answers:
    """A person who knows the page, or does not want any."""

    def __init__(self, page: int | None) -> None:
        self.page = page
        self.asked: list[tuple[str, int, int]] = []
        self.told: list[str] = []
        self.viewed: list[View] = []

    def number(self, question: str, least: int, most: int) -> int | None:
        self.asked.append((question, least, most))
        return self.page

    def tell(self, message: str) -> None:
        self.told.append(message)

    def view(self, view: View) -> None:
        self.viewed.append(view)


@pytest.fixture
def session(plan_path: Path) -> Iterator[Session]:
    with PlanFile.open(plan_path) as file:
        document = Document(file.plan, journal=file, author="a test")
        yield Session(document, first=select.TOOL, file=file)


@pytest.fixture
def pages(tmp_path: Path) -> Path:
    path = tmp_path / "plans.tif"
    first, second = Image.new("L", (200, 100), 250), Image.new("L", (80, 60), 10)
    first.save(path, save_all=True, append_images=[second])
    return path


@pytest.fixture
def owner(qtbot: QtBot) -> Iterator[QObject]:
    found = QObject()
    yield found
    found.deleteLater()


def done(qtbot: QtBot, session: Session, owner: QObject, path: Path, person: Answers) -> None:
    background = Background(owner)
    Laying(session, background, person, owner).lay(path)
    qtbot.waitUntil(lambda: not background.title, timeout=WAIT)
    background.end()


def test_the_page_that_was_asked_for_is_laid(
    qtbot: QtBot, session: Session, owner: QObject, pages: Path
):
    person = Answers(page=2)
    done(qtbot, session, owner, pages, person)
    assert person.asked == [("plans.tif has 2 pages. Which one is the plan?", 1, 2)]
    (item,) = session.document.plan.by_kind[BASE_PLAN].values()
    assert item.details.page == 2
    assert "80 by 60 pixels, page 2 of 2" in person.told[0]
    assert session.chosen == (item.id,)


def test_whoever_wants_no_page_gets_none(
    qtbot: QtBot, session: Session, owner: QObject, pages: Path
):
    person = Answers(page=None)
    done(qtbot, session, owner, pages, person)
    assert len(person.asked) == 1
    assert BASE_PLAN not in session.document.plan.by_kind
    assert person.told == []


def test_of_one_page_nothing_is_asked_and_one_with_coordinates_is_shown(
    qtbot: QtBot, session: Session, owner: QObject, tmp_path: Path
):
    Image.new("L", (200, 100), 250).save(tmp_path / "plan.png")
    (tmp_path / "plan.pgw").write_text("0.1\n0\n0\n-0.1\n553010\n421020\n")
    person = Answers(page=1)
    done(qtbot, session, owner, tmp_path / "plan.png", person)
    assert person.asked == []
    assert "placed by its world file" in person.told[0]
    assert person.viewed == [View.CHOSEN]


def test_a_broken_file_is_said_before_anything_is_asked(
    qtbot: QtBot, session: Session, owner: QObject, tmp_path: Path
):
    (tmp_path / "plan.pdf").write_bytes(b"%PDF-1.7")
    person = Answers(page=1)
    done(qtbot, session, owner, tmp_path / "plan.pdf", person)
    assert person.asked == []
    assert "plan.pdf: This PDF is damaged" in person.told[0]


@pytest.mark.parametrize(("taken", "number"), [(True, 7), (False, None)])
def test_the_page_is_asked_in_a_dialog(qtbot: QtBot, taken, number):
    parent = QWidget()
    qtbot.addWidget(parent)
    seen: list[tuple[str, int, int]] = []

    def answer() -> None:
        box = next(w for w in QApplication.topLevelWidgets() if isinstance(w, QInputDialog))
        seen.append((box.labelText(), box.intMinimum(), box.intMaximum()))
        box.setIntValue(7)
        if taken:
            box.accept()
        else:
            box.reject()

    QTimer.singleShot(0, answer)
    ask = WindowAsk(parent, None, None)
    assert ask.number("Which page?", 1, 90) == number
    assert seen == [("Which page?", 1, 90)]
