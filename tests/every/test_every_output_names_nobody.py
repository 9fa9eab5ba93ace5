"""Nothing that leaves the program names anybody living unasked, nor calls anything so.

Every private text of every kind, and every label that may name somebody, holds a word of its
own; nothing bears a number, so that whatever can be called by its label is; and every reference
that may point to such a thing does.
"""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pypdfium2
import pytest
from test_every_due import PLACES

from plan_editor.commands.difference_words import line, name_of
from plan_editor.commands.making import KeptIn, compose, make_drawing
from plan_editor.edits.basic import Add, Describe, Remove
from plan_editor.edits.chosen import called_on
from plan_editor.errors import CannotPrint
from plan_editor.exchange.calendars import calendar, events
from plan_editor.plan.comparing import compared
from plan_editor.plan.detail import Detail, Value
from plan_editor.plan.document import Document
from plan_editor.plan.item import Item, new_item
from plan_editor.plan.kind import Kind, kinds
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.printing.pdf import write
from plan_editor.printing.sheet import Asked, sheets
from plan_editor.records.chronology import chronology
from plan_editor.records.due import dues
from plan_editor.records.schedule import Asked as AskedOfSchedule
from plan_editor.records.schedule import made, schedules
from plan_editor.storage.plan_file import PlanFile
from plan_editor.survey.grids.grid import Grid

ON = "2026-11-25"
TEXTS = (Value.TEXT, Value.LONG_TEXT)
MARK = "Qx"
"""How every word that must not be seen begins; nothing else does."""

# what a record says of the dead is in the register, and on papers that concern nobody living:
# their labels are told in their own words, but call nothing
LABELS = frozenset((k.name, k.label) for k in kinds() if k.names_people)


def token(kind: Kind, detail: Detail) -> str:
    return f"{MARK}{kind.name}_{detail.name}".replace("_", "x")


LABEL_WORDS = frozenset(
    token(k, d) for k in kinds() for d in k.entries() if (k.name, d.name) in LABELS
)


def bare(kind: Kind) -> Item[Any]:
    """Return an item without a number, every private text of which is a word of its own."""
    told: dict[str, Any] = {}
    for d in kind.entries():
        guarded = d.about.private or (kind.name, d.name) in LABELS
        if d.value in TEXTS and guarded:
            told[d.name] = token(kind, d)
        elif d.value is Value.DATE:
            told[d.name] = "2026-12-01"
    return new_item(kind, PLACES[kind.form], details=kind.details(**told))


def everything() -> Plan:
    """Return a plan in which everything points to everything that has somebody to name."""
    begun = {kind.name: bare(kind) for kind in kinds()}
    items = list(begun.values())
    telling = [n for n, i in begun.items() if MARK in str(i.details)]
    for item in tuple(begun.values()):
        for d in item.kind.references():
            wanted = [n for n in d.about.refers_to if n in telling] or d.about.refers_to[:1]
            for name in wanted:
                details = replace(item.details, **{d.name: begun[name].id})
                items.append(new_item(item.kind, PLACES[item.kind.form], details=details))
    return plan_of(items, name="St Elfric, Harrowmere")


@pytest.fixture(scope="module")
def plan() -> Plan:
    return everything()


def tokens(plan: Plan) -> set[str]:
    return {
        value
        for item in plan.items.values()
        for d in item.kind.entries()
        if str(value := getattr(item.details, d.name)).startswith(MARK)
    }


def named_in(text: str) -> set[str]:
    return {w for w in text.replace("_", " ").split() if MARK in w}


def test_every_private_text_of_every_kind_is_looked_for(plan: Plan) -> None:
    wanted = {
        token(k, d)
        for k in kinds()
        for d in k.entries()
        if d.about.private and d.value in TEXTS
    }
    assert len(wanted) > 15
    assert wanted <= tokens(plan)
    # and the window, which may name them, does: so the labels are there to be left out
    named = " ".join(i.named() for i in plan.items.values())
    assert {token(k, d) for k in kinds() for d in k.entries() if d.name == k.label} & named_in(
        named
    )


def test_nothing_is_called_by_anybody_and_no_title_of_an_edit_is(plan: Plan) -> None:
    for item in plan.items.values():
        assert MARK not in item.called()
        called = called_on(plan, (item.id,))
        titles = (
            Add((item,)).title,
            Remove(ids=(item.id,), called=called).title,
            Describe(ids=(item.id,), details=(), called=called).title,
        )
        assert not any(MARK in t for t in titles)


def test_days_of_everything_name_nobody(plan: Plan) -> None:
    found = dues(plan, ON)
    assert {d.sort for d in found} >= {"requests", "works", "uncut_until"}
    assert MARK not in str(found)
    written = calendar("x", events(plan, ON), ON).replace(b"\r\n ", b"")
    assert MARK.encode() not in written


@pytest.mark.parametrize("schedule", schedules(), ids=lambda s: s.name)
def test_a_schedule_calls_nothing_by_anybody(plan: Plan, schedule: Any) -> None:
    assert MARK not in str(made(plan, schedule, AskedOfSchedule(on=ON)))


def chronicles(plan: Plan) -> Iterator[tuple[Item[Any], str]]:
    for item in plan.items.values():
        yield item, str([(e.what, e.words) for e in chronology(plan, item.id)])


def test_evidence_of_anything_names_nobody_living(plan: Plan) -> None:
    told = 0
    for _, text in chronicles(plan):
        told += len(text)
        for word in named_in(text):
            # a record's own words: of the dead on its request, of a paper that names nobody
            assert any(w in word for w in LABEL_WORDS), word
            assert any(f"{t}: {w}" in text for w in LABEL_WORDS for t in titles_of(w)), word
    assert told > 1000


def titles_of(word: str) -> list[str]:
    return [
        d.about.title
        for k in kinds()
        for d in k.entries()
        if (k.name, d.name) in LABELS and token(k, d) == word
    ]


def test_what_differs_between_two_states_names_nobody(plan: Plan) -> None:
    one = plan_of([bare_of(i) for i in plan.items.values()])
    found = compared(one, plan)
    assert len(found.changed) > 20
    for pair in found.changed:
        said = [name_of(pair.before), name_of(pair.after)]
        said += [line(d, pair.moved, one, plan) for d in pair.differences if not own(d, pair)]
        assert not any(MARK in s for s in said), said
    assert not any(MARK in name_of(i) for i in (*found.added, *found.removed))


def bare_of(item: Item[Any]) -> Item[Any]:
    return replace(item, details=item.kind.details())


def own(difference: Any, pair: Any) -> bool:
    """Return whether it is a label that the record tells as its own words."""
    return (pair.after.kind.name, difference.field.detail.name) in LABELS


def text_of(path: Path) -> str:
    document = pypdfium2.PdfDocument(path)
    texts = [page.get_textpage().get_text_range() for page in document]
    document.close()
    return " ".join(texts)


@pytest.fixture(scope="module")
def kept(plan: Plan, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the plan's file, to which every item was added and from which one of each goes."""
    path = tmp_path_factory.mktemp("kept") / "everything.gpkg"
    sound = [i for i in plan.items.values() if i.kind.name != "base_plan"]
    there = {i.id for i in sound}
    with PlanFile.create(path, name=plan.name, grid=Grid()) as file:
        document = Document(file.plan, journal=file)
        document.apply(Add(tuple(i for i in sound if points_into(i, there))))
        file.save()
    return path


def points_into(item: Item[Any], there: set[Any]) -> bool:
    return all(getattr(item.details, d.name) in (None, *there) for d in item.kind.references())


@pytest.mark.parametrize("sheet", sheets(), ids=lambda s: s.name)
def test_a_sheet_calls_nothing_by_anybody(kept: Path, tmp_path: Path, sheet: Any) -> None:
    with PlanFile.open(kept, read_only=True) as file:
        plan = file.plan
    about = [None] if not sheet.about or sheet.optional else []
    for name in sheet.about:
        of_kind = [i for i in plan.items.values() if i.kind.name == name]
        # the one that everything points to, and one that points to others
        about += [i.id for i in (*of_kind[:1], *of_kind[-1:])]
    told = ""
    for item in dict.fromkeys(about):
        try:
            printed = compose(plan, KeptIn(kept), sheet, Asked(date=ON, item=item))
        except CannotPrint:
            continue
        write(printed, tmp_path / "s.pdf")
        told += f"{printed.title} {printed.remarks} {text_of(tmp_path / 's.pdf')}"
    words = named_in(told)
    if sheet.name == "evidence":
        # a record's own words, as above
        words = {w for w in words if not any(t in w for t in LABEL_WORDS)}
    assert not words


def test_a_drawing_calls_nothing_by_anybody(kept: Path, tmp_path: Path) -> None:
    made_, report = make_drawing(kept, "dxf", tmp_path / "p.dxf")
    assert MARK not in (tmp_path / "p.dxf").read_text("utf-8")
    assert MARK not in f"{made_.remarks} {report}"
