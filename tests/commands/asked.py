"""Answers ``never mind`` to everything, and remembers what was asked."""

from typing import Any


class Asked:
    """Stands where a window would."""

    def __init__(self) -> None:
        self.calls: list[str] = []
        self.text = ""
        self.told: list[str] = []
        self.answers: list[int | None] = []
        self.place: tuple[float, float] | None = None

    def in_view(self) -> tuple[float, float, float, float]:
        self.calls.append("in_view")
        return -10.0, -10.0, 10.0, 10.0

    def clipboard(self) -> str:
        self.calls.append("clipboard")
        return self.text

    def put_on_clipboard(self, text: str) -> None:
        self.calls.append("put_on_clipboard")
        self.text = text

    def tell(self, message: str) -> None:
        self.calls.append("tell")
        self.told.append(message)

    def pointed_at(self) -> tuple[float, float] | None:
        self.calls.append("pointed_at")
        return self.place

    def which(self, question: str, answers: tuple[str, ...]) -> int | None:
        self.calls.append("which")
        return self.answers.pop(0) if self.answers else None

    def one_of(self, question: str, choices: tuple[str, ...]) -> int | None:
        self.calls.append("one_of")
        return self.answers.pop(0) if self.answers else None

    def __getattr__(self, name: str) -> Any:
        def answer(*words: Any) -> None:
            self.calls.append(name)

        return answer
