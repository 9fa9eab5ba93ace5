"""Every command on an empty and on a full session, without a window."""

from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

import pytest
from asked import Asked
from strategies import one_of_each

from plan_editor.commands.command import Command, menus
from plan_editor.commands.finding import find
from plan_editor.drafting.tool import Act, Pointer, tools
from plan_editor.edits.basic import Add
from plan_editor.errors import PlanEditorError
from plan_editor.plan.document import Document
from plan_editor.plan.plan import Plan
from plan_editor.session import Session
from plan_editor.storage.plan_file import PlanFile
from plan_editor.survey.grids.grid import Grid

COMMANDS = [c for m in menus() for _, c in m.all_commands()]
SELECT = next(t for t in tools() if t.name == "select")


@pytest.fixture
def empty() -> Session:
    return Session(Document(Plan()), first=SELECT)


@pytest.fixture
def full(tmp_path: Path) -> Iterator[Session]:
    with PlanFile.create(tmp_path / "p.gpkg", name="P", grid=Grid()) as file:
        session = Session(Document(file.plan, journal=file), first=SELECT, file=file)
        session.apply(Add(tuple(one_of_each().items.values())))
        yield session


def _named(name: str) -> Command:
    return next(c for c in COMMANDS if c.name == name)


def test_no_two_commands_have_one_name_or_the_same_keys() -> None:
    names = [c.name for c in COMMANDS]
    keys = [c.keys for c in COMMANDS if c.keys]
    assert len(set(names)) == len(names)
    assert len(set(keys)) == len(keys)


@pytest.mark.parametrize("command", COMMANDS, ids=lambda c: c.name)
def test_a_command_runs_with_a_plan_and_makes_one_edit_or_none(
    command: Command, full: Session
) -> None:
    full.choose(list(full.document.plan.items)[:1])
    before = full.document.plan.revision
    if command.enabled(full):
        # what the plan cannot take is refused, in a sentence
        with suppress(PlanEditorError):
            command.run(full, Asked())
    assert full.document.plan.revision - before in {0, 1}


@pytest.mark.parametrize("command", COMMANDS, ids=lambda c: c.name)
def test_without_a_plan_only_what_needs_none_is_offered(
    command: Command, empty: Session
) -> None:
    free = {"new", "open", "close", "quit", "light", "dark", "contrast", "system"}
    assert command.enabled(empty) == (command.name in free or command.name.startswith("help_"))


def test_undo_says_what_it_takes_back_and_redo_does_it_again(full: Session) -> None:
    undo, redo = _named("undo"), _named("redo")
    assert undo.title_now is not None
    assert redo.title_now is not None
    assert undo.title_now(full).startswith("Undo: Add ")
    undo.run(full, Asked())
    assert not full.document.plan.items
    assert redo.title_now(full).startswith("Redo: Add ")
    redo.run(full, Asked())
    assert len(full.document.plan.items) == len(one_of_each().items)


def test_what_was_begun_is_dropped_before_undo(full: Session) -> None:
    _named("draw_path").run(full, Asked())
    full.point(Pointer(act=Act.PRESS, east=1.0, north=1.0))
    assert full.answer.origin == (1.0, 1.0)
    _named("undo").run(full, Asked())
    assert full.answer.origin is None
    assert full.kind is not None


def test_an_exact_number_is_found_first_then_commands_then_names(full: Session) -> None:
    item = next(i for i in full.document.plan.items.values() if i.number)
    assert find(full, item.number.lower())[0].items == (item.id,)
    assert find(full, "saf")[0].command is not None
    assert find(full, "  ") == ()
    assert find(full, "nothing is called so") == ()
