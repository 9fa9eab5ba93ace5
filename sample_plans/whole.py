"""Everything on the finished plan but the base plan itself, in the order in which it came."""

from typing import Any

from ashes import ashes, probes, reservations
from asked_for import applications, requests
from families import contacts, steps
from fittings import figures, levels, seats_and_bins, sections, the_vault, underground
from graves import graves
from marks import marks, words
from meadows import lawns, visits, wildlife
from safety_rounds import follow_up, inspections
from stones import memorials
from story import id_of, traced
from trees import the_well, trees
from upkeep import programme, rounds
from yard import enclosure, ways

from plan_editor.kinds import base_plan
from plan_editor.plan.item import Item

OLD_PLAN = id_of(base_plan.KIND, "1962")


def steps_of_the_work() -> tuple[tuple[Item[Any], ...], ...]:
    """Return what came onto the plan, one tuple for each sitting at the desk."""
    old = traced(OLD_PLAN)
    return (
        (figures(), *marks()),
        enclosure(old),
        ways(old),
        (*trees(old), the_well(old)),
        (the_vault(old), *graves(old), *ashes()),
        memorials(old),
        (*underground(), *seats_and_bins(), *levels(), *sections(), *words()),
        (*lawns(), wildlife()),
        (*reservations(), *probes()),
        inspections(),
        (*follow_up(), *visits()),
        (*rounds(), *programme()),
        (*contacts(), *steps()),
        (*requests(), *applications()),
    )
