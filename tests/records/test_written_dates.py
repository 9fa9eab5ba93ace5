"""Dates as people write them, against calendars and readers from elsewhere."""

from datetime import date, datetime

import pytest
from dateutil.parser import parse
from hypothesis import given
from hypothesis import strategies as st
from openpyxl.utils.datetime import from_excel

from plan_editor.plan.values import is_date
from plan_editor.records.written_dates import written_date

SURE = {
    "14 March 1871": "1871-03-14",
    "14th March, 1871": "1871-03-14",
    "March 14, 1871": "1871-03-14",
    "Tuesday 14 March 1871": "1871-03-14",
    "the 14th day of March 1871": "1871-03-14",
    "14-Mar-1871": "1871-03-14",
    "14.iii.1871": "1871-03-14",
    "14/3/1871": "1871-03-14",
    "14.03.1871": "1871-03-14",
    "1871-03-14": "1871-03-14",
    "1871-03-14T00:00:00": "1871-03-14",
    "5 Sept. 1871": "1871-09-05",
    "March 1871": "1871-03",
    "1871-03": "1871-03",
    "1871": "1871",
    "": "",
    " . ": "",
}


@pytest.mark.parametrize(("text", "iso"), SURE.items())
def test_what_leaves_no_doubt_is_read_without_any(text: str, iso: str) -> None:
    found = written_date(text)
    assert (found.iso, found.doubt) == (iso, "")


DOUBTFUL = {
    "bef. 1850": ("1850", "before"),
    "before 14 March 1871": ("1871-03-14", "before"),
    "aft. 1850": ("1850", "after"),
    "c. 1850": ("1850", "about"),
    "ca 1850": ("1850", "about"),
    "abt 1850": ("1850", "about"),
    "[1850?]": ("1850", "uncertain"),
    "3/14/1871": ("1871-03-14", "month stands before the day"),
    "31 April 1871": ("1871-04", "no 31 April"),
    "1871-13-01": ("1871", "no month 13"),
    "31/31/1871": ("1871", "no month 31"),
    "14/3/71": ("", "which century"),
    "14 March 71": ("", "which century"),
    "1850s": ("", "ten years"),
    "1850-55": ("", "a span"),
    "1850–1855": ("", "a span"),
    "bet. 1850 and 1855": ("", "a span"),
    "9 February 1200": ("", "the year 1200"),
    "12": ("", "cannot be read"),
    "1 marchy 1871": ("", "cannot be read"),
    "5 xy 1871": ("", "cannot be read"),
    "x" * 60: ("", "…"),
    "99999": ("", "cannot be read"),
    "-999999": ("", "cannot be read"),
    "1700/02": ("1700", "no pair of years"),
    "1 Jan 1900/01": ("1901-01-01", "did not begin twice"),
    "8 May 1740/41": ("1741-05-08", "did not begin twice"),
}


@pytest.mark.parametrize(("text", "wanted"), DOUBTFUL.items())
def test_what_is_doubtful_keeps_what_can_be_told_and_says_why(
    text: str, wanted: tuple[str, str]
) -> None:
    found = written_date(text)
    assert found.iso == wanted[0]
    assert wanted[1] in found.doubt


def test_day_before_lady_day_bears_two_years() -> None:
    """The execution of Charles I: 30 January 1648/9, in histories 1649.

    Source: Calendar (New Style) Act 1750 (24 Geo. II c. 23), section 1, for the change of the
    year's beginning; the date from memory, as in any history of England.
    """
    assert written_date("30 January 1648/9").iso == "1649-01-30"
    assert written_date("30 January 1648/49").iso == "1649-01-30"
    assert written_date("1699/1700").iso == "1700"
    assert "25 March" in written_date("30 January 1648").doubt
    assert written_date("25 March 1648").doubt == ""
    assert written_date("30 January 1752").doubt == ""


def test_eleven_days_of_september_1752_are_doubtful() -> None:
    """After the 2nd came the 14th. Source: the same act, section 1."""
    days = [d for d in range(1, 31) if written_date(f"{d} September 1752").doubt]
    assert days == list(range(3, 14))


@given(st.integers(-131_000, -1000) | st.integers(10_000, 73_000), st.sampled_from(["", ".0"]))
def test_days_counted_by_a_spreadsheet_are_those_that_openpyxl_reads(
    count: int, end: str
) -> None:
    """Source: the library openpyxl, which reads the 1900 date system of ISO/IEC 29500-1."""
    wanted = from_excel(count)
    assert isinstance(wanted, datetime)
    found = written_date(f"{count}{end}")
    assert found.iso == wanted.date().isoformat()
    assert "spreadsheet" in found.doubt


def test_figures_that_may_change_places_are_told_apart() -> None:
    assert written_date("3/4/1871").figures
    assert not written_date("4/4/1871").figures
    assert not written_date("14/4/1871").figures


FORMS = ("%d %B %Y", "%d %b %Y", "%B %d, %Y", "%d/%m/%Y", "%d.%m.%Y", "%A %d %B %Y", "%d-%b-%Y")


@given(st.dates(date(1753, 1, 1), date(2099, 12, 31)), st.sampled_from(FORMS))
def test_days_are_read_as_dateutil_reads_them(day: date, form: str) -> None:
    """Source: the library python-dateutil, its parser with the day first."""
    text = day.strftime(form)
    found = written_date(text)
    assert found.iso == parse(text, dayfirst=True).date().isoformat()
    assert found.doubt == ""


@given(st.text(max_size=20) | st.text("0123456789/-. bcMar[]?", max_size=16))
def test_whatever_is_written_becomes_a_date_that_a_plan_holds_or_none(text: str) -> None:
    found = written_date(text)
    assert is_date(found.iso)
    assert found.iso or found.doubt or not text.strip(" .,;\t\n\r\x0b\x0c\x1c\x1d\x1e\x1f\x85")
