"""Answers ``never mind`` to everything, and remembers what was asked."""

from typing import Any


class Asked:
    """Stands where a window would."""

    def __init__(self) -> None:
        self.calls: list[str] = []

    def __getattr__(self, name: str) -> Any:
        def answer(*words: Any) -> None:
            self.calls.append(name)

        return answer
