"""The schedule of burials by name."""

from plan_editor.kinds import burial
from plan_editor.kinds.burial import BurialDetails
from plan_editor.plan.item import Item
from plan_editor.plan.numbers import natural
from plan_editor.plan.plan import Plan
from plan_editor.records.schedule import Asked, Heading, Line, Schedule
from plan_editor.records.told import called


def lines(plan: Plan, asked: Asked) -> tuple[Line, ...]:
    """Return a line for each entry of the register, by surname, forenames and date."""
    del asked
    return tuple(
        Line(cells=_cells(plan, entry), item=entry.id)
        for entry in sorted(plan.of(burial.KIND), key=_order)
    )


def _order(entry: Item[BurialDetails]) -> tuple[bool, str, str, str, list[tuple[str, int]]]:
    told = entry.details
    name = told.surname.casefold()
    return not name, name, told.forenames.casefold(), told.buried, natural(entry.number)


def _cells(plan: Plan, entry: Item[BurialDetails]) -> tuple[str, ...]:
    told = entry.details
    return (
        told.surname,
        told.forenames,
        told.buried,
        told.age,
        told.sort.value,
        called(plan, told.grave),
        "" if told.belief is None else told.belief.value,
        told.book,
        entry.number,
    )


SCHEDULE = Schedule(
    name="burials",
    title="Burials by name",
    purpose="For whoever is asked where somebody lies: every entry of the register, by name.",
    headings=(
        Heading(title="Surname", share=1.6),
        Heading(title="Forenames", share=1.8),
        Heading(title="Buried", share=1.1),
        Heading(title="Age", share=0.8),
        Heading(title="Sort", share=1.0),
        Heading(title="Lies in", share=1.4),
        Heading(title="Certain", share=0.9),
        Heading(title="Register", share=0.9),
        Heading(title="Entry", share=0.7),
    ),
    lines=lines,
    note="As the register has it. An entry without a grave was not matched to the ground; a"
    " grave without an entry may hold burials all the same.",
)
