"""Results of inspections in tables: rows read, with every doubtful cell."""

from collections.abc import Mapping
from dataclasses import dataclass

from plan_editor.edits.inspections_in import WrittenInspection
from plan_editor.edits.written_entries import Doubtful, Rejected
from plan_editor.exchange.register_cells import without_apostrophe
from plan_editor.exchange.tables import Column, Columns, Table, TableRow, columns, number
from plan_editor.records.inspection_words import written_result, written_test
from plan_editor.records.written_dates import WrittenDate, written_date

LONGEST = 1_000
"""No cell but the action holds more letters."""

LONGEST_ACTION = 20_000
MOST_FORCE_N = 1000.0

_NEEDED = frozenset({"number", "date", "result"})
_ALSO: Mapping[str, str] = {
    "number": "no;nr;item;thing;what;memorial;memorial no;memorial number;stone;stone no;"
    "stone number;grave;grave no;grave number;plot;plot no;plot number;tree;tree no;"
    "tree number;reference;ref;tag",
    "kind": "sort;type;kind of thing",
    "date": "inspected;inspected on;date inspected;date of inspection;inspection date;tested;"
    "tested on;date tested;date of test;test date;day;when",
    "method": "test;tested by;how;how tested;test type;type of test;method of test",
    "result": "outcome;finding;found;category;priority;condition;state;status;risk;pass fail",
    "inspector": "inspected by;by;by whom;tester;name of inspector;surveyor;person",
    "action": "action taken;action wanted;action required;action needed;what to do;remarks;"
    "remark;notes;note;comment;comments;recommendation;work needed",
    "force": "force n;force applied;newton;newtons;load;test force",
    "item of the report": "report item;item no;item number;report number;quinquennial item;"
    "clause;paragraph",
    "next due": "next;due;next inspection;next inspection due;again on;review;review date",
}

WANTED = tuple(
    Column(name=name, synonyms=tuple(also.split(";")), needed=name in _NEEDED)
    for name, also in _ALSO.items()
)
"""The columns that are looked for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WrittenInspections:
    """The rows of a table of inspections.

    Args:
        read: how many rows there are below the heads.
        found: those that can be taken.
        doubtful: cells of them of which not all can be taken as it stands.
        rejected: rows that cannot be taken.
    """

    read: int
    found: tuple[WrittenInspection, ...]
    doubtful: tuple[Doubtful, ...]
    rejected: tuple[Rejected, ...]


class _NotTaken(Exception):
    """Why a row cannot be taken."""


def inspections_of(table: Table, today: str) -> WrittenInspections:
    """Return the inspections of a table.

    A row is taken only if thing, date and result can be told: without one of them an
    inspection counts for nothing, and a danger that was misread would count for less.

    Args:
        table: with the names of the columns above it.
        today: ISO date; a later one is doubtful.

    Raises:
        CannotRead: no row names the columns, or one that is needed is missing.
    """
    where = columns(table, WANTED)
    found: list[WrittenInspection] = []
    doubtful: list[Doubtful] = []
    rejected: list[Rejected] = []
    for row in where.rows:
        try:
            one, doubts = _inspection(row, where, today)
        except _NotTaken as why:
            rejected.append(Rejected(row.line, str(why)))
            continue
        found.append(one)
        doubtful += doubts
    return WrittenInspections(
        read=len(where.rows),
        found=tuple(found),
        doubtful=tuple(doubtful),
        rejected=tuple(rejected),
    )


def _inspection(
    row: TableRow, where: Columns, today: str
) -> tuple[WrittenInspection, tuple[Doubtful, ...]]:
    told = {name: without_apostrophe(cell) for name, cell in where.named(row).items()}
    doubts: list[tuple[str, str]] = []
    for name, cell in told.items():
        if len(cell) > (LONGEST_ACTION if name == "action" else LONGEST):
            raise _NotTaken(f"what stands under {name} is too long")
    if not told["number"]:
        raise _NotTaken("no number of a thing stands here")
    date = _date(told["date"], doubts, today)
    if not told["result"]:
        raise _NotTaken("no result stands here")
    result, doubt = written_result(told["result"])
    if result is None:
        raise _NotTaken(doubt)
    test, odd = written_test(told.get("method", ""))
    doubts += [("result", doubt), ("method", odd)]
    one = WrittenInspection(
        row=row.line,
        number=told["number"],
        kind=told.get("kind", ""),
        date=date.iso,
        result=result,
        taken_as=bool(doubt),
        test=test,
        force_n=_force(told.get("force", ""), doubts),
        inspector=" ".join(told.get("inspector", "").split()),
        action=told.get("action", ""),
        item_no=" ".join(told.get("item of the report", "").split()),
        next_due=_next(told.get("next due", ""), doubts),
    )
    return one, tuple(Doubtful(row.line, name, why) for name, why in doubts if why)


def _date(text: str, doubts: list[tuple[str, str]], today: str) -> WrittenDate:
    read = written_date(text)
    if not read.iso:
        raise _NotTaken(f"no date: {read.doubt}" if read.doubt else "no date stands here")
    if read.doubt:
        doubts.append(("date", read.doubt))
    if read.iso > today:
        doubts.append(("date", "it lies in the future, and counts from that day on"))
    return read


def _force(text: str, doubts: list[tuple[str, str]]) -> float | None:
    bare = text.casefold().removesuffix("newtons").removesuffix("n").strip()
    if not bare:
        return None
    try:
        force = number(bare)
    except ValueError as why:
        doubts.append(("force", f"{why} of newtons and was left out"))
        return None
    if not 0.0 <= force <= MOST_FORCE_N:
        doubts.append(("force", f"{force:g} N is no force of a test and was left out"))
        return None
    return force


def _next(text: str, doubts: list[tuple[str, str]]) -> str:
    read = written_date(text)
    if read.doubt:
        doubts.append(("next due", read.doubt))
    return read.iso
