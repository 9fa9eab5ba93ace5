"""Telling those who asked."""

from plan_editor.plan.signal import Signal


def test_listeners_are_called_in_the_order_in_which_they_asked() -> None:
    signal: Signal[int] = Signal()
    heard: list[tuple[str, int]] = []
    signal.connect(lambda n: heard.append(("first", n)))
    signal.connect(lambda n: heard.append(("second", n)))
    signal.emit(7)
    assert heard == [("first", 7), ("second", 7)]


def test_who_no_longer_listens_is_not_told_and_may_say_so_twice() -> None:
    signal: Signal[int] = Signal()
    heard: list[int] = []
    end = signal.connect(heard.append)
    signal.emit(1)
    end()
    end()
    signal.emit(2)
    assert heard == [1]


def test_a_listener_may_stop_listening_while_it_is_told() -> None:
    signal: Signal[int] = Signal()
    heard: list[int] = []
    ends = [signal.connect(lambda n: (heard.append(n), ends[0]())[0])]  # type: ignore[func-returns-value]  # a short way to do two things
    signal.connect(heard.append)
    signal.emit(1)
    signal.emit(2)
    assert heard == [1, 1, 2]
