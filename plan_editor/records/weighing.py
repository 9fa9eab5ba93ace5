"""How much each thing that agrees, or does not, speaks for a grave: likelihood ratios.

The shares below, of true pairs that agree so, are our own figures, set on invented registers
and frozen before the held-out ones were matched. Shares by chance are counted on the plan.
"""

from dataclasses import dataclass

from plan_editor.kinds import ashes_plot, grave
from plan_editor.records.matching_ground import Entry, Place
from plan_editor.records.stones import Person
from plan_editor.records.written import slips

SAME, CLOSE = 0, 1
"""How alike two words are: as they stand, or but for a letter or two."""

NUMBER_RIGHT, NUMBER_SLIPPED, NUMBER_OTHER = 0.9, 0.012, 0.05
NOT_NAMED = 0.08
ELSEWHERE = 0.03
FULL, FREE = 0.1, 0.3
ASHES_IN_GRAVE, ASHES_IN_PLOT, COFFIN_IN_PLOT = 0.7, 4.0, 0.02
NEAR_YEARS, FAR_YEARS = 10, 35
IN_TIME, OUT_OF_TIME = 2.0, 0.4
FAMILY_BESIDE = 1.5


@dataclass(frozen=True, slots=True)
class Weight:
    """A likelihood ratio, and what to say of it; nothing where it says nothing."""

    ratio: float = 1.0
    reason: str = ""


def weigh_number(entry: Entry, place: Place, alike: int) -> Weight:
    """Weigh the place as written against the grave's own number.

    Args:
        entry: the entry.
        place: the grave.
        alike: of how many graves the number is of this likeness: as written, or slipped.
    """
    if not entry.keys or not place.key:
        return Weight()
    written, number = entry.item.details.place_written, place.item.number
    if place.key in entry.keys:
        return Weight(NUMBER_RIGHT * alike, f"the register writes “{written}”")
    if any(slips(key) & slips(place.key) for key in entry.keys):
        told = f"“{written}” may be a slip for {number}"
        return Weight(NUMBER_SLIPPED * alike, told)
    return Weight(NUMBER_OTHER, f"the register writes “{written}”, not {number}")


def weigh_use(entry: Entry, place: Place) -> Weight:
    """Weigh whether the place is one for what was buried, and has room for it."""
    plot = place.item.kind == ashes_plot.KIND
    state = str(place.item.details.state)
    ratio, reasons = 1.0, []
    if plot and entry.of_coffin:
        ratio *= COFFIN_IN_PLOT
        reasons.append("a coffin in an ashes plot")
    elif entry.of_ashes:
        ratio *= ASHES_IN_PLOT if plot else ASHES_IN_GRAVE
    if state == str(grave.State.FREE):
        ratio *= FREE
        reasons.append("the plan has it as free")
    if _full(entry, place):
        ratio *= FULL
        reasons.append("it has its coffins already")
    return Weight(ratio, "; ".join(reasons))


def _full(entry: Entry, place: Place) -> bool:
    room = getattr(place.item.details, "coffins", None)
    coffins = sum(not e.of_ashes for e in place.lying)
    return room is not None and not entry.of_ashes and coffins >= room


def weigh_time(entry: Entry, near: frozenset[int]) -> Weight:
    """Weigh the year against those of the graves beside it: rows fill as years go on."""
    if not entry.years or not near:
        return Weight()
    latest = max(entry.years)
    apart = min(abs(latest - y) for y in near)
    if apart <= NEAR_YEARS:
        return Weight(IN_TIME, "graves beside it are of those years")
    return (
        Weight(OUT_OF_TIME, "graves beside it are of other years")
        if (apart > FAR_YEARS)
        else Weight()
    )


def weigh_forenames(entry: Entry, person: Person, close: dict[str, dict[str, int]]) -> Weight:
    """Weigh the forenames against the words that stand by one person on a stone."""
    if not entry.forenames:
        return Weight()
    found = [_forename(word, person, close) for word in entry.forenames]
    if all(found):
        return Weight(14.0 if min(found) > 1 else 3.0, " ".join(entry.forenames).title())
    return Weight(2.0, "one forename") if max(found) > 1 else Weight(0.2)


def _forename(word: str, person: Person, close: dict[str, dict[str, int]]) -> int:
    """Return 3 where it stands there, 2 with a letter or two off, 1 as an initial, else 0."""
    if word in person.words:
        return 3 if len(word) > 1 else 1
    if any(near in person.words for near in close.get(word, {})):
        return 2
    if len(word) == 1:
        return int(any(w.startswith(word) for w in person.words))
    return int(word[0] in person.words)


def weigh_year(entry: Entry, person: Person) -> Weight:
    """Weigh the year of death or burial against those by one person on a stone."""
    if not entry.years or not person.years:
        return Weight()
    if shared := entry.years & person.years:
        return Weight(30.0, str(max(shared)))
    apart = min(abs(a - b) for a in entry.years for b in person.years)
    if apart == 1:
        return Weight(5.0, f"a year off {max(person.years)}")
    slip = any(slips((str(a),)) & slips((str(b),)) for a in entry.years for b in person.years)
    return Weight(1.5 if slip else 0.1)


def weigh_age(entry: Entry, person: Person) -> Weight:
    """Weigh the age against those by one person on a stone."""
    if entry.age is None or not person.ages:
        return Weight()
    if entry.age in person.ages:
        return Weight(15.0, f"aged {entry.age}")
    apart = min(abs(entry.age - a) for a in person.ages)
    return Weight(5.0, f"aged {entry.age} or so") if apart == 1 else Weight(0.25)
