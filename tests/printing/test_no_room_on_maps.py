"""What found no room on a map is named for what it is, with what to do about it."""

import shapely
from test_mowing_map import every

from plan_editor.drawing.ink import Text
from plan_editor.kinds import gate, memorial
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of
from plan_editor.printing.sheet import Asked, Paper, Supplied
from plan_editor.printing.sheets import round as sheet


def test_a_number_without_room_is_told_as_one_of_a_thing_in_the_list():
    stones = [
        new_item(
            memorial.KIND,
            shapely.Point(5 + 0.3 * (n % 10), 4 + 0.3 * (n // 10)).buffer(0.1),
            details=memorial.MemorialDetails(height_m=1.0),
            number=f"B {n}",
        )
        for n in range(60)
    ]
    far = new_item(memorial.KIND, shapely.Point(40, 60).buffer(0.3), number="Z 1")
    plan = plan_of([new_item(gate.KIND, shapely.Point(5, 0)), *stones, far])
    made = sheet.SHEET.compose(plan, Asked(date="2026-05-16", paper=Paper.A4), Supplied())
    (remark,) = [r for r in made.remarks if "no room" in r]
    told, _, numbers = remark.partition(": ")
    assert told == "There was no room on the map to write these numbers"
    numbers, _, rest = numbers.partition(".")
    assert rest == (
        " What they belong to is drawn there, and told of beside or after the map. A larger"
        " scale or larger paper has more room."
    )
    # each number that was left out stands in the list, and not on the map
    first, *tables = [{t.text for t in every(p.ink) if isinstance(t, Text)} for p in made.pages]
    left_out = set(numbers.split(", "))
    assert left_out
    assert not left_out & first
    assert left_out <= set.union(*tables)
