"""Placing a base plan by points, each clicked on it and then on the ground or by numbers."""

import re
from dataclasses import dataclass, replace

from plan_editor.drafting.tool import Act, Answer, Pointer, Setting, ToolButton
from plan_editor.errors import CannotUse
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan
from plan_editor.survey.grids.grid import Grid

FARTHEST_M = 1e8
"""No projected coordinate is greater: the earth is 40 000 km round, and a zone's number before
the easting makes 60 500 000 at most."""

_COORDINATE = re.compile(r"[+-]?(\d+([.,]\d*)?|[.,]\d+)")

ON_BASE_PLAN = "Click a point on the base plan whose place on the ground is known."
ON_GROUND = "Click the same point on the ground, or choose a mark or type coordinates."


@dataclass(frozen=True, slots=True)
class Pick:
    """A tool that takes one place and changes nothing.

    Args:
        prompt: what the click is for.
        picked: the place, once it was clicked; east and north in metres.
        hits: what lies there, the top one first.
        reach: metres within which a click means what lies there.
    """

    prompt: str
    picked: tuple[float, float] | None = None
    hits: tuple[ItemId, ...] = ()
    reach: float = 0.0

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Take the place of a press."""
        del plan
        if pointer.act is not Act.PRESS:
            return Answer(tool=self, prompt=self.prompt)
        picked = (pointer.east, pointer.north)
        taken = replace(self, picked=picked, hits=pointer.hits, reach=pointer.reach)
        return Answer(tool=taken, prompt=self.prompt)


def picking(prompt: str) -> ToolButton:
    """Return the button of a tool that takes one place."""

    def start(setting: Setting) -> Answer:
        del setting
        return Answer(tool=Pick(prompt), prompt=prompt)

    return ToolButton(name="pick", title="Place by points", icon="base_plan", start=start)


def read_place(grid: Grid, east: str, north: str) -> tuple[float, float]:
    """Return typed coordinates of the plan's system as metres about its origin.

    Raises:
        CannotUse: one of them is no number.
    """
    return grid.to_plan(read_coordinate(east, "easting"), read_coordinate(north, "northing"))


def read_coordinate(text: str, called: str) -> float:
    """Return one typed coordinate; blanks between its digits do not matter.

    Raises:
        CannotUse: it is no number, or lies farther off than any grid of the earth reaches.
    """
    bare = re.sub(r"[\s\u202f]|^[EN]", "", text.strip(), flags=re.IGNORECASE)
    if not _COORDINATE.fullmatch(bare):
        raise CannotUse(
            f"The {called} is not a number. Write it in figures: 553112.48. Nothing was"
            " changed."
        )
    value = float(bare.replace(",", "."))
    if abs(value) > FARTHEST_M:
        raise CannotUse(
            f"The {called} lies farther off than any grid reaches. Write it in metres:"
            " 553112.48. Nothing was changed."
        )
    return value
