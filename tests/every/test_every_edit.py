"""What holds of every edit that there is."""

import importlib
import inspect
import pkgutil
from dataclasses import is_dataclass
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from strategies import EDITS, one_of_each

import plan_editor.edits
from plan_editor.errors import EditRefused


def all_edits() -> set[type]:
    modules = [
        importlib.import_module(f"plan_editor.edits.{m.name}")
        for m in pkgutil.iter_modules(plan_editor.edits.__path__)
    ]
    classes = [c for m in modules for _, c in inspect.getmembers(m, inspect.isclass)]
    return {c for c in classes if hasattr(c, "changes") and c.__module__ in _names(modules)}


def _names(modules: list[Any]) -> set[str]:
    return {module.__name__ for module in modules}


def test_every_edit_is_drawn_from_by_the_tests() -> None:
    assert all_edits() == set(EDITS)


@pytest.mark.parametrize("sort", EDITS)
def test_it_is_a_frozen_value(sort: type) -> None:
    assert is_dataclass(sort)
    assert sort.__dataclass_params__.frozen
    assert "__slots__" in vars(sort)


@pytest.mark.parametrize("sort", EDITS)
@given(data=st.data())
def test_it_has_a_title_and_says_the_same_when_asked_twice(
    sort: type, data: st.DataObject
) -> None:
    edit = data.draw(EDITS[sort](one_of_each()))
    assert edit.title[0].isupper()
    assert "\n" not in edit.title
    try:
        changes = edit.changes(one_of_each())
    except EditRefused:
        with pytest.raises(EditRefused):
            edit.changes(one_of_each())
    else:
        assert changes == edit.changes(one_of_each())
