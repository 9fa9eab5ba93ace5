"""Work in a process of its own ends in time, in memory and in one sentence."""

import itertools
import os
import sys
from functools import partial
from time import monotonic

import pytest

from plan_editor.errors import CannotRead
from plan_editor.exchange.formats.dxf.opening import opened
from plan_editor.limits import in_child

_PLENTY = 512 * 1024**2


def test_an_answer_comes_back() -> None:
    assert in_child(sum, (1, 2, 39), seconds=60, memory=_PLENTY) == 42


def test_work_without_end_is_stopped_in_time() -> None:
    begun = monotonic()
    with pytest.raises(CannotRead, match="could not be read in the time") as refused:
        in_child(sum, itertools.count(), seconds=2, memory=_PLENTY)
    assert monotonic() - begun < 10
    assert "Nothing was changed." in str(refused.value)


@pytest.mark.skipif(sys.platform != "linux", reason="memory is limited on Linux only")
def test_work_that_asks_for_too_much_memory_is_refused() -> None:
    with pytest.raises(CannotRead, match="needs more memory"):
        in_child(bytearray, 3 * _PLENTY, seconds=60, memory=_PLENTY)


def test_a_process_that_dies_is_told_in_a_sentence() -> None:
    with pytest.raises(CannotRead, match="made its reader stop"):
        in_child(os._exit, 3, seconds=60, memory=_PLENTY)


def test_a_process_that_ends_with_its_parent_may_start_another() -> None:
    inner = partial(in_child, sum, seconds=60, memory=_PLENTY)
    assert in_child(inner, (4, 5), seconds=120, memory=_PLENTY) == 9


def test_what_the_work_refuses_is_refused_here_with_its_own_words() -> None:
    with pytest.raises(CannotRead, match="The file is empty"):
        in_child(opened, b"", seconds=60, memory=_PLENTY)
