"""Notices and letters: what stands on them, and who is never named unasked."""

from dataclasses import replace

import pypdfium2 as pdfium
import pytest

from plan_editor.drawing.ink import Stroke, Text
from plan_editor.drawing.lettering import CAPITAL
from plan_editor.errors import CannotPrint
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import (
    grave,
    inspection,
    memorial,
    owner_contact,
    parish,
    tracing,
    wording,
)
from plan_editor.kinds.inspection import InspectionDetails, Result
from plan_editor.kinds.memorial import MemorialDetails
from plan_editor.kinds.owner_contact import OwnerContactDetails
from plan_editor.kinds.parish import ParishDetails
from plan_editor.kinds.tracing import Step, TracingDetails
from plan_editor.kinds.wording import WordingDetails
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of
from plan_editor.printing.pdf import write
from plan_editor.printing.sheet import Asked, Paper, Supplied
from plan_editor.printing.sheets import letter, notice, public

DAY = "2026-06-01"
SHEETS = (notice.SHEET, public.SHEET, letter.SHEET)
GRAVE = new_item(grave.KIND, Rectangle(east=0, north=0, width=1, length=2), number="C 9")
STONE = new_item(
    memorial.KIND, Rectangle(east=3, north=0, width=0.8, length=0.2), number="C 14"
)
BARE = new_item(
    memorial.KIND,
    Rectangle(east=0, north=0, width=0.8, length=0.2),
    details=MemorialDetails(grave=GRAVE.id),
)
LOOSE = new_item(memorial.KIND, Rectangle(east=6, north=0, width=0.8, length=0.2))
PARISH = new_item(
    parish.KIND,
    details=ParishDetails(
        name="St Elfric, Harrowmere", enquiries="Parish office\n01632 960123"
    ),
)
OWNER = new_item(
    owner_contact.KIND,
    details=OwnerContactDetails(
        name="Mrs A. Fenwright", address="4 Mill Row\nHarrowmere", memorial=STONE.id
    ),
)
OF_GRAVE = new_item(
    owner_contact.KIND, details=OwnerContactDetails(name="J. Orrell", grave=GRAVE.id)
)
OF_NOTHING = new_item(owner_contact.KIND, details=OwnerContactDetails(name="N. Body"))
ALL = (GRAVE, STONE, BARE, LOOSE, PARISH, OWNER, OF_GRAVE, OF_NOTHING)


def inspected(result, date="2026-05-02"):
    told = InspectionDetails(target=STONE.id, date=date, result=result)
    return new_item(inspection.KIND, details=told)


FAILED = inspected(Result.IMMEDIATE)


def made(sheet, about=STONE, items=(*ALL, FAILED), **asked):
    plan = plan_of(items, name="Plan of the churchyard")
    wanted = Asked(date=DAY, item=about.id, **asked)
    return sheet.compose(plan, wanted, Supplied())


def text_of(printed):
    (page,) = printed.pages
    return " ".join(t.text for t in page.ink if isinstance(t, Text))


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda s: s.name)
def test_it_says_which_stone_until_when_and_whom_to_ask(sheet):
    told = text_of(made(sheet))
    assert "Memorial C 14" in told
    # 28 days after 1 June, which is not counted
    assert "29 June 2026" in told
    assert "2 May 2026" in told
    assert "Parish office 01632 960123" in told


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda s: s.name)
def test_nobody_living_is_named_unasked(sheet):
    printed = made(sheet)
    assert "Fenwright" not in text_of(printed) + printed.title + " ".join(printed.remarks)
    assert "Mill Row" not in text_of(printed)


@pytest.mark.parametrize("sheet", SHEETS[:2], ids=lambda s: s.name)
def test_a_notice_names_nobody_living_even_where_names_are_asked_for(sheet):
    # everybody reads it
    assert "Fenwright" not in text_of(made(sheet, contacts=True))


@pytest.mark.parametrize("about", [STONE, OWNER], ids=["stone", "owner"])
def test_a_letter_bears_name_and_address_where_they_are_asked_for(about):
    printed = made(letter.SHEET, about, contacts=True)
    told = text_of(printed)
    assert "Mrs A. Fenwright 4 Mill Row Harrowmere" in told
    assert "Dear Mrs A. Fenwright," in told
    assert "Fenwright" not in printed.title
    assert "Memorial C 14" in told


def lines_on(printed):
    (page,) = printed.pages
    return sum(len(i.lines) for i in page.ink if isinstance(i, Stroke))


def test_where_nobody_is_to_be_named_lines_are_left():
    unnamed = made(letter.SHEET)
    assert lines_on(unnamed) == lines_on(made(letter.SHEET, contacts=True)) + 5
    assert any("names of living people" in r for r in unnamed.remarks)


def test_where_several_answer_for_a_stone_nobody_is_chosen_for_them():
    second = new_item(owner_contact.KIND, details=OWNER.details)
    printed = made(letter.SHEET, items=(*ALL, second), contacts=True)
    assert "Fenwright" not in text_of(printed)
    assert any("2 people answer" in r for r in printed.remarks)


def test_a_letter_about_a_stone_that_nobody_answers_for_leaves_lines_too():
    printed = made(letter.SHEET, LOOSE, contacts=True)
    assert "The memorial" in text_of(printed)
    assert lines_on(printed) == 6


@pytest.mark.parametrize(
    ("about", "says"), [(OF_GRAVE, "Memorial on grave C 9"), (BARE, "Memorial on grave C 9")]
)
def test_a_stone_without_a_number_is_known_by_its_grave(about, says):
    assert says in text_of(made(letter.SHEET, about, contacts=True))


def test_where_neither_has_a_number_it_is_the_memorial():
    unnumbered = replace(GRAVE, number="")
    assert "The memorial in the" in text_of(made(letter.SHEET, BARE, items=(unnumbered, BARE)))


def test_a_grave_without_a_stone_is_named_itself():
    printed = made(letter.SHEET, OF_GRAVE, items=(GRAVE, OF_GRAVE), contacts=True)
    assert "Grave C 9" in text_of(printed)


def test_an_owner_of_nothing_gets_a_letter_with_the_stone_to_be_written_in():
    printed = made(letter.SHEET, OF_NOTHING, contacts=True)
    assert printed.title == "Letter to a family: a stone"
    assert any("“{stone}” is not known" in r for r in printed.remarks)


def test_a_letter_about_nothing_is_not_made():
    with pytest.raises(CannotPrint, match="about a stone or an owner"):
        letter.SHEET.compose(plan_of(ALL), Asked(date=DAY), Supplied())


def test_the_days_that_were_recorded_are_printed():
    told = TracingDetails(target=STONE.id, step=Step.NOTICE_ON_STONE, date=DAY, days=42)
    step = new_item(tracing.KIND, details=told)
    assert "13 July 2026" in text_of(made(notice.SHEET, items=(*ALL, FAILED, step)))
    # they are not those of the letter
    assert "29 June 2026" in text_of(made(letter.SHEET, items=(*ALL, FAILED, step)))


@pytest.mark.parametrize(
    ("inspections", "day"),
    [
        ((FAILED, inspected(Result.MADE_SAFE, "2026-05-03")), "2 May 2026"),
        ((inspected(Result.IMMEDIATE, "2025-01-07"), FAILED), "2 May 2026"),
        ((FAILED, inspected(Result.SOUND, "2026-05-20")), ""),
        ((), ""),
    ],
)
def test_the_day_on_which_it_was_found_is_that_of_the_inspection_that_failed(inspections, day):
    printed = made(notice.SHEET, items=(*ALL, *inspections))
    found = "We found on \xa0____" if not day else f"We found on {day} "
    assert found in text_of(printed)
    assert any("No inspection says" in r for r in printed.remarks) is not bool(day)


def own(words):
    return new_item(wording.KIND, details=WordingDetails(name="notice", words=words))


def test_the_parishs_own_words_are_printed_and_unknown_braces_are_told():
    printed = made(notice.SHEET, items=(*ALL, FAILED, own("Ours\n\nAsk {whom} by {until}.")))
    assert "Ours" in text_of(printed)
    assert "Ask {whom} by 29 June 2026." in text_of(printed)
    (remark,) = (r for r in printed.remarks if "{whom}" in r)
    assert "nothing that can be filled in" in remark


def test_words_that_fit_on_no_page_are_refused():
    with pytest.raises(CannotPrint, match="more words than can be read"):
        made(notice.SHEET, items=(*ALL, own("Ours\n\n" + "word " * 5000)))


def test_what_is_not_known_is_left_to_be_written_in():
    printed = made(notice.SHEET, items=(STONE, FAILED))
    assert "____" in text_of(printed)
    assert any("Enquiries to" in r for r in printed.remarks)
    assert "Plan of the churchyard" in text_of(printed)


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda s: s.name)
@pytest.mark.parametrize("paper", [None, *Paper])
def test_it_is_one_page_of_that_paper_and_everything_lies_on_it(sheet, paper, tmp_path):
    printed = made(sheet, paper=paper, contacts=True)
    write(printed, tmp_path / "sheet.pdf")
    document = pdfium.PdfDocument(tmp_path / "sheet.pdf")
    assert len(document) == 1
    page = document[0]
    # ISO 216: A4 is 210 by 297 mm
    short, long = (paper or Paper.A4).value
    assert page.get_size() == pytest.approx((short / 25.4 * 72, long / 25.4 * 72), abs=0.1)
    texts = page.get_textpage()
    boxes = [texts.get_rect(n) for n in range(texts.count_rects())]
    document_box = (0, 0, *page.get_size())
    assert all(b[0] >= document_box[0] and b[2] <= document_box[2] for b in boxes)
    assert all(b[1] >= document_box[1] and b[3] <= document_box[3] for b in boxes)
    document.close()


def test_a_notice_reads_from_afar():
    # ISO 3098 has nothing below 1.8 mm; road users' rule of thumb, common practice: 25 mm of
    # letter for 10 m, so capitals of 10 mm for the heading read at 4 m, and 4 mm at 1.5 m
    (page,) = made(notice.SHEET).pages
    sizes = sorted(t.size * CAPITAL for t in page.ink if isinstance(t, Text))
    assert sizes[-1] >= 10.0
    assert sizes[1] >= 4.0


@pytest.mark.parametrize("sheet", SHEETS[:2], ids=lambda s: s.name)
def test_a_long_parish_name_stays_on_its_line(sheet):
    long = replace(PARISH, details=replace(PARISH.details, name="All the Holy Martyrs " * 9))
    (page,) = made(sheet, items=(STONE, FAILED, long)).pages
    lowest = min(t.y for t in page.ink if isinstance(t, Text))
    assert lowest >= 10.0


def test_a_long_address_is_set_smaller_and_one_that_is_no_address_is_refused():
    def owner(lines):
        return replace(OWNER, details=replace(OWNER.details, address="Line\n" * lines))

    (page,) = made(letter.SHEET, items=(STONE, FAILED, owner(10)), contacts=True).pages
    address = [t.y for t in page.ink if isinstance(t, Text) and t.text == "Line"]
    assert len(address) == 10
    # above the day of the letter, which stands 90 mm below the upper edge
    assert min(address) > 297.0 - 90.0
    with pytest.raises(CannotPrint, match="The address"):
        made(letter.SHEET, items=(STONE, FAILED, owner(60)), contacts=True)
