"""Which column of a table is which column of the burial register."""

import tomllib
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from plan_editor.edits.corrections import NUMBER, TITLES
from plan_editor.edits.written_entries import LIES_IN
from plan_editor.errors import CannotRead, CannotUse
from plan_editor.exchange.tables import Table, TableRow

NAME = "name"
"""A column that holds forenames and surname together."""

UNUSED = ""
"""What a column holds that is not taken."""

COLUMNS: Mapping[str, str] = {NUMBER: TITLES[NUMBER], NAME: "Whole name"} | TITLES
"""What a table may hold of an entry, each with what it is called."""

MOST_BYTES = 100_000
"""A larger file is no list of columns."""

_LOOKED_AT = 50  # rows, for the one that names the columns
_ALSO: Mapping[str, str] = {
    NUMBER: "number;no;nr;num;entry;entry no;entry number;number of entry;burial no;burial"
    " number;register no;register number;register entry;serial no",
    NAME: "name;names;full name;name in full;names in full;person;deceased;name of deceased;"
    "name of person buried",
    "surname": "last name;family name;name surname;surname of deceased",
    "forenames": "forename;first name;first names;given name;given names;christian name;"
    "christian names;forename s",
    "sort": "type;type of burial;burial type;kind;kind of burial;coffin;body or ashes;interment"
    " type",
    "abode": "address;residence;late of;where abode;parish;last address;former address",
    "died": "death;date of death;death date;died on;dod",
    "buried": "date;burial;burial date;date of burial;buried on;when buried;interred;interment;"
    "date of interment;date buried",
    "age": "age at death;aged;years;age years",
    "minister": "officiant;by whom;by whom buried;by whom the ceremony was performed;clergy;"
    "priest;officiating;celebrant;minister",
    "cremated_at": "crematorium;cremation;place of cremation;cremated",
    "book": "volume;vol;register book;book no;register volume",
    "place_written": "grave;grave no;grave number;plot;plot no;plot number;space;location;"
    "place;position;where;where buried;grave space",
    "depth_m": "depth;depth m;lid depth",
    "remarks": "remark;notes;note;comment;comments;other particulars;observations",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class RegisterLayout:
    """What the columns of a table hold.

    Args:
        heads: of the columns, as the table has them; empty where it has none.
        names: what each holds: a name of ``COLUMNS``, or ``UNUSED``.
        first: the place in the table of the first row below the heads.
    """

    heads: tuple[str, ...]
    names: tuple[str, ...]
    first: int

    @property
    def key(self) -> str:
        """Tells tables apart whose columns are called otherwise."""
        return "|".join(map(plain, self.heads))

    @property
    def left(self) -> tuple[str, ...]:
        """The heads of columns that are not taken."""
        told = zip(self.heads, self.names, strict=True)
        return tuple(head for head, name in told if head and name == UNUSED)

    def head(self, name: str) -> str:
        """Return what the table calls a column; where it has none, what it is called here."""
        return next(
            (h for h, n in zip(self.heads, self.names, strict=True) if n == name and h),
            self.head(NAME) if name in _PARTS and NAME in self.names else COLUMNS[name],
        )


_PARTS = ("surname", "forenames")


def layout_of(table: Table, given: Mapping[str, str] | None = None) -> RegisterLayout:
    """Return what the columns of a table hold, told by their heads.

    Args:
        table: as it was read.
        given: the head of the column that holds each; whatever is not in it is told as usual.

    Raises:
        CannotRead: no row names the columns, or none holds names.
        CannotUse: a head that was given is not there.
    """
    width = max(len(row.cells) for row in table.rows)
    told = given or {}
    rows = table.rows[:_LOOKED_AT]
    header = max(rows, key=lambda row: _found(_names(row, told)))
    names = _names(header, told)
    if _found(names) < 2:
        raise CannotRead(
            f"{table.name}: no row names the columns of a register. Nothing was read. Put their"
            " names over the table: No., Surname, Forenames, Buried, Age, Abode."
        )
    for name, head in told.items():
        if name not in names:
            raise CannotUse(
                f"{table.name}, line {header.line}: there is no column “{head}” for {name}."
                f" Nothing was read. There are {_listed(header.cells)}."
            )
    spare = width - len(header.cells)
    layout = RegisterLayout(
        heads=(*header.cells, *[""] * spare),
        names=(*names, *[UNUSED] * spare),
        first=table.rows.index(header) + 1,
    )
    if fault := missing(layout.names):
        raise CannotRead(f"{table.name}, line {header.line}: {fault} Nothing was read.")
    return layout


def missing(names: Sequence[str]) -> str:
    """Return what keeps columns from being those of a register, as a sentence, or ""."""
    used = [n for n in names if n != UNUSED]
    if twice := next((n for n in used if used.count(n) > 1), ""):
        return f"Two columns are taken as {COLUMNS[twice]}."
    if not {NAME, *_PARTS} & set(used):
        return "Wanted is a column with names: Surname and Forenames, or Whole name."
    return ""


def read_columns(path: Path) -> Mapping[str, str]:
    """Return a list of columns that somebody wrote: ``surname = "Family name"``, one a line.

    Raises:
        CannotUse: it cannot be read, or makes no sense; the text says why.
    """
    told = _toml(path)
    columns = told.get("columns", told)
    if not isinstance(columns, dict) or not columns:
        raise CannotUse(f"{path.name} names no columns. Nothing was read. {_HOW}")
    for name, head in columns.items():
        if name not in COLUMNS:
            known = ", ".join(COLUMNS)
            raise CannotUse(
                f"{path.name}: a register has no column {name}; there are {known}. Nothing was"
                " read."
            )
        if not isinstance(head, str) or not plain(head):
            raise CannotUse(f"{path.name}: {name} is not a text. Nothing was read. {_HOW}")
    return columns


_HOW = 'Write a line for each column, such as: surname = "Family name".'


def plain(head: str) -> str:
    """Return a head in small letters and figures alone, without a unit in brackets."""
    bare = head.casefold().split("(")[0] or head.casefold()
    return "".join(c for c in bare if c.isalnum())


def _toml(path: Path) -> dict[str, Any]:
    try:
        with path.open("rb") as file:
            content = file.read(MOST_BYTES + 1)
        if len(content) > MOST_BYTES:
            raise CannotUse(f"{path.name} is too large for a list of columns.")
        return tomllib.loads(content.decode())
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError, RecursionError) as fault:
        why = fault.strerror if isinstance(fault, OSError) else fault
        raise CannotUse(
            f"{path.name} cannot be read as a list of columns: {why}. Nothing was read."
        ) from fault


def _names(row: TableRow, given: Mapping[str, str]) -> tuple[str, ...]:
    """Return what the columns hold: as given, else by what they are called."""
    heads = [plain(cell) or None for cell in row.cells]
    names = [UNUSED] * len(heads)
    of_others = {n: h for n, h in _WORDS.items() if n not in given}
    for words in ({n: (plain(h),) for n, h in given.items()}, _own(of_others), of_others):
        for name, known in words.items():
            if name in names:
                continue
            at = next((n for n, h in enumerate(heads) if h in known and not names[n]), None)
            if at is not None:
                names[at] = name
    return tuple(names)


def _own(words: Mapping[str, tuple[str, ...]]) -> dict[str, tuple[str, ...]]:
    return {name: known[:2] for name, known in words.items()}


_WORDS = {
    # a column “Grave” elsewhere holds the words of the register
    name: tuple(
        map(plain, (title, "" if name == LIES_IN else name, *_ALSO.get(name, "").split(";")))
    )
    for name, title in COLUMNS.items()
}


def _found(names: Iterable[str]) -> int:
    return sum(1 for n in names if n != UNUSED)


def _listed(heads: Iterable[str]) -> str:
    told = [f"“{h}”" for h in heads if h]
    return ", ".join(told[:20])
