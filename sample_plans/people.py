"""Who lies in the churchyard: invented people, as they are, before anybody wrote them down."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cache
from random import Random

from graves import Space, spaces
from story import dice

from plan_editor.kinds.grave import State

SURNAMES = (
    "Aldermarsh", "Allenby", "Arkwold", "Barrowby", "Beckthorn", "Binfleet", "Brackmere",
    "Branscar", "Burgate", "Cattermole", "Chantrey", "Coldham", "Copperwheat", "Cradock",
    "Crossfen", "Dakeyne", "Deepwell", "Dunmore", "Eastoft", "Elvington", "Fairlamb", "Fenwold",
    "Fossdyke", "Garthside", "Gatward", "Gildersome", "Greengrass", "Haddlesey", "Hallowby",
    "Harmston", "Hawcroft", "Heronby", "Holdgate", "Ingleham", "Jessop", "Kelderfield",
    "Kirkup",
    "Lambourne", "Langrick", "Leadbitter", "Littlewold", "Lowmarsh", "Maltravers", "Marfleet",
    "Merrifield", "Mossop", "Nettlewell", "Northolme", "Oldroyd", "Osgerby", "Otterburn",
    "Pennifold", "Plumtree", "Quarrington", "Rainbird", "Ravensworth", "Redfearn", "Saltmarsh",
    "Sedgwold", "Skelbrook", "Stainforth", "Swanholme", "Tanfield", "Thistlewood", "Thornmere",
    "Tideswell", "Ullathorne", "Wadworth", "Waterfall", "Wharram", "Whitgift", "Winterfold",
    "Wragby", "Yarborough",
)  # fmt: skip
MEN = (
    "John", "William", "Thomas", "George", "James", "Robert", "Joseph", "Henry", "Charles",
    "Edward", "Samuel", "Richard", "Alfred", "Frederick", "Arthur", "Albert", "Harold",
    "Walter",
    "Ernest", "Stanley", "Reginald", "Leonard", "Kenneth", "Ronald", "Derek", "Geoffrey",
)  # fmt: skip
WOMEN = (
    "Mary", "Elizabeth", "Ann", "Sarah", "Jane", "Hannah", "Martha", "Ellen", "Alice", "Emma",
    "Harriet", "Charlotte", "Eliza", "Susannah", "Florence", "Edith", "Ethel", "Doris",
    "Winifred",
    "Gladys", "Phyllis", "Dorothy", "Margaret", "Joan", "Barbara", "Sheila",
)  # fmt: skip
_PLACES = ("Harrowmere", "Harrowmere", "Harrowmere Fen", "Mere End", "Church Lane", "Low Farm")
_VICARS = (
    (1830, "T. Garthorpe, Vicar"),
    (1861, "E. W. Pallister, Vicar"),
    (1899, "H. Ormsby-Dale, Vicar"),
    (1934, "C. Fennimore, Vicar"),
    (1968, "P. Stallingbrough, Rector"),
    (1997, "J. Auckley, Rector"),
    (9999, "M. Thurlbear, Rector"),
)
_SECOND = 0.24
"""Part of the graves in which a second person lies."""

_YOUNG = 0.2


@dataclass(frozen=True, slots=True, kw_only=True)
class Person:
    """One who was buried.

    Args:
        surname, forenames: as they were.
        woman: for the words on the stone.
        buried: ISO date.
        age: in whole years; 0 for an infant.
        abode, minister: as the register has it.
        space: the grave.
    """

    surname: str
    forenames: str
    woman: bool
    buried: str
    age: int
    abode: str
    minister: str
    space: Space


@cache
def people() -> tuple[Person, ...]:
    """Return everybody who lies in a grave, in the order of burial."""
    found = (p for s in spaces() if _used(s) for p in _in(s))
    return tuple(sorted(found, key=lambda p: (p.buried, p.space.number)))


@cache
def by_grave() -> dict[str, tuple[Person, ...]]:
    """Return who lies in each grave, the first buried first."""
    found: dict[str, tuple[Person, ...]] = {}
    for person in people():
        found[person.space.number] = (*found.get(person.space.number, ()), person)
    return found


def _used(space: Space) -> bool:
    return space.state in (State.OCCUPIED, State.UNKNOWN)


def _in(space: Space) -> Iterator[Person]:
    chance = dice(f"people {space.number}")
    surname = chance.choice(SURNAMES)
    first = _person(space, surname, space.year, chance)
    yield first
    year = space.year + chance.randint(2, 25)
    if chance.random() < _SECOND and year <= 2025 and not _single(space):
        yield _person(space, surname, year, chance)


def _single(space: Space) -> bool:
    """Return whether the grave was dug for one coffin only; see ``graves``."""
    return space.year >= 2000 and dice(f"depth {space.number}").choice((1, 2, 2)) == 1


def _person(space: Space, surname: str, year: int, chance: Random) -> Person:
    woman = chance.random() < 0.5
    names = WOMEN if woman else MEN
    # names of the time: those at the end of the list came last
    at = min(len(names) - 6, max(0, (year - 1806) * (len(names) - 6) // 220))
    forenames = [chance.choice(names[max(0, at - 6) : at + 6])]
    if chance.random() < 0.35:
        forenames.append(chance.choice(names[max(0, at - 6) : at + 6]))
    young = chance.random() < (_YOUNG if year < 1910 else 0.03)
    day = date(year, 1, 3) + timedelta(days=chance.randint(0, 350))
    return Person(
        surname=surname,
        forenames=" ".join(dict.fromkeys(forenames)),
        woman=woman,
        buried=day.isoformat(),
        age=chance.randint(0, 12) if young else chance.randint(24, 93),
        abode=chance.choice(_PLACES),
        minister=next(name for until, name in _VICARS if year <= until),
        space=space,
    )
