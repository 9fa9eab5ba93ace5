"""The cells of one line of a field book, and what is wrong with them."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from typing_extensions import override

from plan_editor.geometry import lengths
from plan_editor.survey.books.book_settings import BookSettings

_BARE = re.compile(r"[\d.,\s]+", re.ASCII)
"""A length that has no unit with it."""


@dataclass(frozen=True, slots=True)
class Fault:
    """What is wrong with a line: which line, which column, and what."""

    line: int
    column: str
    words: str

    @override
    def __str__(self) -> str:
        """Return it as part of a sentence."""
        return f"line {self.line}, {self.column}: {self.words}"


@dataclass(slots=True)
class Cells:
    """Reads the cells of one line and gathers what is wrong with them.

    Args:
        number: of the line.
        texts: by the names of the columns.
        settings: what holds for the whole book.
        faults: so far.
    """

    number: int
    texts: Mapping[str, str]
    settings: BookSettings
    faults: list[Fault] = field(default_factory=list)

    def text(self, column: str) -> str:
        """Return what stands there."""
        return self.texts.get(column, "").strip()

    def wrong(self, column: str, words: str) -> None:
        """Keep a fault."""
        self.faults.append(Fault(self.number, column, words))

    def name(self, column: str) -> str:
        """Return the name of a point."""
        name = self.text(column)
        if len(name) > 40 or not name.isprintable():
            self.wrong(column, "the name of a point has at most 40 letters, on one line")
            return ""
        return name

    def of(self, column: str, read: Callable[[str], float]) -> float | None:
        """Return a number, or None where there is none."""
        text = self.text(column)
        if not text:
            return None
        if len(text) > 40:
            self.wrong(column, f"“{text[:30]}…” is too long to be a figure")
            return None
        try:
            return read(text)
        except ValueError as fault:
            self.wrong(column, str(fault).rstrip("."))
            return None

    def one_of(self, column: str, known: Mapping[str, bool | None], wanted: str) -> bool | None:
        """Return the answer of a word, one of those wanted: ``right nor left``."""
        text = self.text(column).casefold()
        if text not in known:
            self.wrong(column, f"“{self.text(column)[:40]}” is neither {wanted}")
        return known.get(text)

    def length(self, text: str) -> float:
        """Return a length in metres; a bare number is in the book's unit."""
        unit = self.settings.unit_m if _BARE.fullmatch(text) else 1.0
        return round(lengths.metres(text) * unit, 6)

    def signed(self, text: str) -> float:
        """Return a length that may be less than nothing."""
        if text[:1] in ("-", "−", "+"):
            return self.length(text[1:].strip()) * (1.0 if text[0] == "+" else -1.0)
        return self.length(text)
