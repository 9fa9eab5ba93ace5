"""Words of notices and letters, shipped and the parish's own."""

import pytest

from plan_editor.kinds import wording
from plan_editor.kinds.wording import WordingDetails
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of
from plan_editor.records.wordings import (
    BLANKS,
    BY_HAND,
    shipped_wordings,
    worded,
    wording_named,
    wordings,
)

EVERYTHING = {name: f"<{name}>" for name in BLANKS}


def own(name, words, source="The parish council"):
    return new_item(wording.KIND, details=WordingDetails(name=name, words=words, source=source))


@pytest.mark.parametrize("shipped", shipped_wordings(), ids=lambda w: w.name)
def test_shipped_words_have_a_heading_a_day_and_somebody_to_ask(shipped):
    found = worded(shipped.words, EVERYTHING)
    assert found.heading
    assert not found.unknown
    assert not found.by_hand
    text = "\n".join(found.paragraphs)
    assert "<until>" in text
    assert "<contact>" in text.split("\n")
    assert shipped.source


def test_notices_and_a_letter_are_shipped():
    assert [w.name for w in wordings(plan_of([]))] == ["notice", "public", "letter"]


@pytest.mark.parametrize("name", ["notice", "NOTICE", "Notice on a  stone"])
def test_the_parishs_own_words_take_the_place_of_the_shipped(name):
    plan = plan_of([own(name, "Ours\n\nUntil {until}")])
    found = wording_named(plan, "notice")
    assert (found.words, found.source, found.own) == (
        "Ours\n\nUntil {until}",
        "The parish council",
        True,
    )
    assert not wording_named(plan, "letter").own


def test_of_several_the_last_counts_and_empty_ones_do_not():
    plan = plan_of([own("letter", "first"), own("letter", "second"), own("letter", "  \n")])
    assert wording_named(plan, "letter").words == "second"


def test_nothing_is_worded_for_a_name_that_is_not_there():
    with pytest.raises(LookupError):
        wording_named(plan_of([]), "invoice")


def test_blanks_are_filled_in_and_unknown_braces_are_told():
    found = worded(
        "A  head\nover two lines\n\nOf { stone } to {until}, {who} {}\n \nEnd",
        {"stone": "Memorial {until}", "until": "1 May"},
    )
    assert found.heading == "A head over two lines"
    # what was filled in is left as it is, braces and all
    assert found.paragraphs == ("Of Memorial {until} to 1 May, {who} {}", "End")
    assert found.unknown == ("who", "")
    assert found.by_hand == ()


def test_what_is_not_known_is_left_to_be_written_in():
    found = worded("Ask\n\n{contact}\n\n{date}", {"contact": ""})
    assert found.paragraphs == (BY_HAND, BY_HAND)
    assert found.by_hand == ("contact", "date")


def test_no_words_make_no_paragraph():
    assert worded(" \n\n ", EVERYTHING).heading == ""
    assert worded("", EVERYTHING).paragraphs == ()
