"""Long work beside the window: answers, refusals, stops, stale answers, a lost process."""

import os
import time
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from pytestqt.exceptions import capture_exceptions
from pytestqt.qtbot import QtBot

from plan_editor.desktop.background import GONE, Background, Work, WorkBroke
from plan_editor.errors import CannotPrint, PlanEditorError


def doubled(number: int) -> int:
    return 2 * number


def refused() -> None:
    raise CannotPrint("It does not fit.")


def broken() -> None:
    raise ZeroDivisionError


def lost() -> None:
    os._exit(3)


def waiting_for(flag: str) -> str:
    while not Path(flag).exists():
        time.sleep(0.01)  # it waits for a file in another process, not for a time
    return flag


def by_halves(number: int, progress: Callable[[float], None]) -> int:
    for share in (0.0, 0.5, 1.0):
        progress(share)
    return 2 * number


class Heard:
    def __init__(self) -> None:
        self.values: list[Any] = []
        self.words: list[str] = []

    def failed(self, error: PlanEditorError) -> None:
        self.words.append(str(error))

    def work(self, function: Any, *arguments: Any, about: str = "it") -> Work:
        return Work(
            about=about,
            title="Working",
            function=function,
            arguments=arguments,
            done=self.values.append,
            failed=self.failed,
        )


@pytest.fixture
def heard() -> Heard:
    return Heard()


@pytest.fixture
def background(qapp: object) -> Iterator[Background]:
    made = Background(qapp)  # type: ignore[arg-type]  # pytest-qt's own name for the application
    yield made
    made.end()
    made.deleteLater()


def test_answers_come_back_from_the_process_in_turn(
    qtbot: QtBot, background: Background, heard: Heard
) -> None:
    for number in (1, 2, 3):
        background.in_process(heard.work(doubled, number, about=str(number)))
    assert background.title == "Working"
    qtbot.waitUntil(lambda: len(heard.values) == 3, timeout=20_000)
    assert heard.values == [2, 4, 6]
    assert background.title == ""


def test_a_refusal_brings_its_sentence_over(
    qtbot: QtBot, background: Background, heard: Heard
) -> None:
    background.in_process(heard.work(refused))
    qtbot.waitUntil(lambda: bool(heard.words), timeout=20_000)
    assert heard.words == ["It does not fit."]


def test_our_own_fault_there_is_raised_here(
    qtbot: QtBot, background: Background, heard: Heard
) -> None:
    with capture_exceptions() as caught:
        background.in_thread(heard.work(broken))
        qtbot.waitUntil(lambda: bool(heard.words))
    (kind, error, _) = caught[0]
    assert kind is WorkBroke
    assert "ZeroDivisionError" in str(error)


def test_a_lost_process_is_a_sentence_and_the_next_work_is_done(
    qtbot: QtBot, background: Background, heard: Heard
) -> None:
    background.in_process(heard.work(lost))
    qtbot.waitUntil(lambda: bool(heard.words), timeout=20_000)
    assert heard.words == [GONE]
    background.in_process(heard.work(doubled, 4))
    qtbot.waitUntil(lambda: heard.values == [8], timeout=20_000)


def test_newer_work_makes_the_answer_of_older_work_stale(
    qtbot: QtBot, background: Background, heard: Heard, tmp_path: Path
) -> None:
    flag = tmp_path / "go on"
    background.in_thread(heard.work(waiting_for, str(flag)))
    background.in_thread(heard.work(doubled, 5))
    qtbot.waitUntil(lambda: heard.values == [10])
    flag.touch()
    background.in_thread(heard.work(doubled, 6, about="something else"))
    qtbot.waitUntil(lambda: 12 in heard.values)
    assert heard.values == [10, 12]


def test_stopped_work_is_heard_of_no_more(
    qtbot: QtBot, background: Background, heard: Heard, tmp_path: Path
) -> None:
    background.in_process(heard.work(waiting_for, str(tmp_path / "never")))
    background.stop()
    assert background.title == ""
    background.in_process(heard.work(doubled, 7))
    qtbot.waitUntil(lambda: heard.values == [14], timeout=20_000)
    assert heard.words == []


def test_what_may_not_be_stopped_goes_on_to_its_end(
    qtbot: QtBot, background: Background, heard: Heard, tmp_path: Path
) -> None:
    flag = tmp_path / "go on"
    background.in_thread(replace(heard.work(waiting_for, str(flag)), may_stop=False))
    assert not background.may_stop
    background.stop()
    assert background.title == "Working"
    flag.touch()
    qtbot.waitUntil(lambda: heard.values == [str(flag)])


@pytest.mark.parametrize("beside", ["in_process", "in_thread"])
def test_work_tells_the_share_that_is_done_before_its_answer(
    qtbot: QtBot, background: Background, beside: str
) -> None:
    heard, told = Heard(), []
    getattr(background, beside)(replace(heard.work(by_halves, 4), told=told.append))
    assert background.goes_on("it")
    qtbot.waitUntil(lambda: heard.values == [8])
    assert told == [0.0, 0.5, 1.0]
    assert not background.goes_on("it")
