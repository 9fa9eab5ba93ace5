"""The burial register as it was typed from its books: a table, with the faults of one."""

import csv
import io
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import cache

from people import Person, people
from story import dice

FILE = "harrowmere-register.csv"
HEADER = (
    "No.",
    "Surname",
    "Christian names",
    "Abode",
    "When buried",
    "Age",
    "By whom buried",
    "Where",
    "Remarks",
)
FIRST = 214
"""The number of the first entry: the books before it are lost."""

WRITTEN_FROM = 1902
"""Before this year the books do not say where anybody lies, but for a few."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """One row of the table.

    Args:
        truth: who it was; None of an entry that belongs to no grave of the plan.
    """

    number: str
    surname: str
    forenames: str
    abode: str
    buried: str
    age: str
    minister: str
    where: str
    remarks: str = ""
    truth: Person | None = None

    @property
    def cells(self) -> tuple[str, ...]:
        """What stands in the row, in the order of the header."""
        return (
            self.number,
            self.surname,
            self.forenames,
            self.abode,
            self.buried,
            self.age,
            self.minister,
            self.where,
            self.remarks,
        )


ABROAD = (
    ("Seafarer", "Unknown", "1838-11-04", "Washed up at the sluice; name not known"),
    ("Tanfield", "Hannah", "1854-08-19", "Of the cholera; in the corner by the north wall"),
    ("Fossdyke", "Joseph", "1871-02-27", "From the workhouse"),
    ("Ullathorne", "Ernest", "1917-06-08", "Lies abroad; entered for his name on the stone"),
)
"""Entries of people who lie in no grave of the plan: surname, names, day, what is said."""

CLAIMS = (
    ("Holdgate", "Joan", "2019-03-12", "84", "Y 10"),
    ("Merrifield", "Derek", "2024-09-26", "79", "Y 9"),
    ("Swanholme", "Sheila", "2023-02-17", "90", "Z 4"),
)
"""Entries that cannot be as they stand: a second coffin in a grave dug for one, a burial in a
space that is kept by faculty, one in a space that is free. Names, day, age, place."""

FAULTS: Mapping[str, str] = {
    "day of no calendar": "31 February 1871",
    "about": "c. 1831",
    "before": "bef. 1850",
    "two years": "1843/44",
    "words": "Whitsun week 1866",
}
"""Dates as nobody can read them for certain, one entry each."""


@cache
def written() -> tuple[Written, ...]:
    """Return the rows of the table, in the order of the books."""
    others = (*map(_abroad, ABROAD), *map(_claim, CLAIMS))
    rows = sorted((*map(_row, people()), *others), key=lambda w: w.buried)
    numbered = [replace(w, number=str(n)) for n, w in enumerate(rows, FIRST)]
    return tuple(_with_faults(numbered))


def register_file() -> bytes:
    """Return the table as the parish's office wrote it: CSV in UTF-8, days in the old way."""
    text = io.StringIO()
    table = csv.writer(text, lineterminator="\r\n")
    table.writerow(HEADER)
    table.writerows(w.cells for w in written())
    return text.getvalue().encode()


def _row(person: Person) -> Written:
    chance = dice(f"entry {person.space.number} {person.buried}")
    told = person.buried[:4] >= str(WRITTEN_FROM) or chance.random() < 0.08
    letter, n = person.space.number.split()
    styles: tuple[Callable[[], str], ...] = (
        lambda: f"{letter} {n}",
        lambda: f"{letter}{n}",
        lambda: f"Row {letter} No. {n}",
        lambda: f"{letter}.{n}",
    )
    return Written(
        number="",
        surname=person.surname,
        forenames=person.forenames,
        abode=person.abode,
        buried=person.buried,
        age="infant" if person.age == 0 else str(person.age),
        minister=person.minister,
        where=chance.choice(styles)() if told else "",
        truth=person,
    )


def _abroad(entry: tuple[str, str, str, str]) -> Written:
    surname, forenames, day, said = entry
    return Written(
        number="",
        surname=surname,
        forenames=forenames,
        abode="",
        buried=day,
        age="",
        minister="",
        where="",
        remarks=said,
    )


def _claim(entry: tuple[str, str, str, str, str]) -> Written:
    surname, forenames, day, age, where = entry
    return Written(
        number="",
        surname=surname,
        forenames=forenames,
        abode="Harrowmere",
        buried=day,
        age=age,
        minister="M. Thurlbear, Rector",
        where=where,
    )


def _with_faults(rows: list[Written]) -> list[Written]:
    for at, date in zip((40, 61, 75, 96, 133), FAULTS.values(), strict=True):
        rows[at] = replace(rows[at], buried=date)
    for at in (28, 87, 171, 230, 301):
        rows[at] = replace(rows[at], surname=_misheard(rows[at].surname))
    for at in (350, 410):
        rows[at] = replace(rows[at], number="")
    for at in (382, 447):
        letter, n = (rows[at].truth or people()[0]).space.number.split()
        rows[at] = replace(rows[at], where=f"{letter} {n}{n}")
    return rows


def _misheard(surname: str) -> str:
    for right, wrong in (("ck", "k"), ("ey", "y"), ("w", "u"), ("ar", "er"), ("ll", "l")):
        if right in surname:
            return surname.replace(right, wrong, 1)
    return f"{surname}e"
