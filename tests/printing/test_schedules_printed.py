"""Schedules on paper, read back from the PDF."""

import re
from pathlib import Path

import pypdfium2
import pytest

from plan_editor.kinds import burial
from plan_editor.kinds.burial import BurialDetails
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.printing.pdf import write
from plan_editor.printing.schedules import NOTHING, WITH_NAMES, WITHOUT_NAMES, compose
from plan_editor.printing.sheet import Paper
from plan_editor.records.schedule import Asked, made, schedules

ON = "2026-11-25"


def entries(count: int) -> Plan:
    return plan_of(
        [
            new_item(
                burial.KIND,
                number=str(n),
                details=BurialDetails(surname=f"Tarn{n:04}", forenames="Ada", buried="1931"),
            )
            for n in range(count)
        ],
        name="St Elfric, Harrowmere",
    )


def printed(plan: Plan, name: str, *, contacts: bool = False):
    schedule = next(s for s in schedules() if s.name == name)
    return compose(
        plan, made(plan, schedule, Asked(on=ON, contacts=contacts)), maker="A. Clerk"
    )


def pages(plan: Plan, name: str, tmp_path: Path, *, contacts: bool = False) -> list[str]:
    out = tmp_path / "made.pdf"
    write(printed(plan, name, contacts=contacts), out)
    with pypdfium2.PdfDocument(out) as found:
        return [page.get_textpage().get_text_range() for page in found]


def test_every_entry_stands_once_and_the_heads_stand_on_every_page(tmp_path: Path):
    found = pages(entries(200), "burials", tmp_path)
    assert len(found) > 2
    names = re.findall(r"Tarn\d{4}", " ".join(found))
    assert names == [f"Tarn{n:04}" for n in range(200)]
    for number, page in enumerate(found, 1):
        assert "Forenames" in page
        assert "Burials by name, 25 November 2026" in page
        assert f"{number} of {len(found)}" in page
        assert "A. Clerk" in page


@pytest.mark.parametrize("schedule", schedules(), ids=lambda s: s.name)
def test_every_schedule_is_printed_with_its_note_even_when_it_is_empty(schedule, tmp_path):
    (page,) = pages(plan_of([]), schedule.name, tmp_path)
    plain = " ".join(page.split())
    assert NOTHING in plain
    assert " ".join(schedule.note.split()) in plain


def test_narrow_tables_lie_upright_on_a4_and_broad_ones_across_on_a3():
    upright = printed(entries(3), "burials")
    assert (upright.paper, upright.scale) == (Paper.A4, None)
    # ISO 216: A4 is 210 mm by 297 mm, A3 297 mm by 420 mm
    assert {(p.width, p.height) for p in upright.pages} == {(210.0, 297.0)}
    long = new_item(burial.KIND, details=BurialDetails(surname="Featherstonehaugh" * 2))
    across = printed(plan_of([long]), "burials")
    assert {(p.width, p.height) for p in across.pages} == {(420.0, 297.0)}
    assert across.title == "Burials by name, 25 November 2026"


@pytest.mark.parametrize(("contacts", "says"), [(True, WITH_NAMES), (False, WITHOUT_NAMES)])
def test_a_schedule_says_whether_living_people_are_named_in_it(contacts, says, tmp_path):
    (page,) = pages(plan_of([]), "reservations", tmp_path, contacts=contacts)
    assert says in " ".join(page.split())
