"""One item before and after."""

import pytest
from strategies import kind_of, plain

from plan_editor.plan.change import Change

NOTE = plain(kind_of("note"))


def test_it_is_about_the_item_on_either_side() -> None:
    assert Change(None, NOTE).id == Change(NOTE, None).id == Change(NOTE, NOTE).id == NOTE.id


def test_it_needs_an_item_on_one_side() -> None:
    with pytest.raises(ValueError, match="before or after it"):
        _ = Change(None, None).id


def test_reversed_twice_it_is_itself() -> None:
    assert Change(None, NOTE).reversed() == Change(NOTE, None)
    assert Change(None, NOTE).reversed().reversed() == Change(None, NOTE)
