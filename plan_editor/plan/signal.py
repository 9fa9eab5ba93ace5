"""Tell those who asked."""

from collections.abc import Callable
from typing import Generic, TypeVar

T = TypeVar("T")


class Signal(Generic[T]):
    """One kind of notice. Listeners are called in the order in which they asked."""

    def __init__(self) -> None:
        self._listeners: list[Callable[[T], None]] = []

    def connect(self, listener: Callable[[T], None]) -> Callable[[], None]:
        """Call the listener at every notice from now on; return a function that ends it."""
        self._listeners.append(listener)

        def disconnect() -> None:
            if listener in self._listeners:
                self._listeners.remove(listener)

        return disconnect

    def emit(self, notice: T) -> None:
        """Tell everyone who asked."""
        for listener in tuple(self._listeners):
            listener(notice)
