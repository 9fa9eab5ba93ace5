import pytest
import shapely

from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import (
    boundary,
    burial,
    fence,
    gate,
    grass,
    grave,
    hedge,
    inspection,
    memorial,
    owner_contact,
    reservation,
    tree,
    wall,
    works,
)
from plan_editor.kinds.boundary import BoundaryDetails
from plan_editor.kinds.burial import Belief, BurialDetails
from plan_editor.kinds.fence import FenceDetails
from plan_editor.kinds.gate import GateDetails
from plan_editor.kinds.grass import GrassDetails
from plan_editor.kinds.grave import GraveDetails, State
from plan_editor.kinds.hedge import HedgeDetails
from plan_editor.kinds.inspection import InspectionDetails, Result
from plan_editor.kinds.memorial import MemorialDetails
from plan_editor.kinds.owner_contact import OwnerContactDetails
from plan_editor.kinds.reservation import ReservationDetails, Stage
from plan_editor.kinds.tree import Category, TreeDetails
from plan_editor.kinds.wall import WallDetails
from plan_editor.kinds.works import Priority, Progress, WorksDetails
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.records.schedule import Asked, Made, Schedule, made, schedules

ON = "2026-11-25"


def named(name: str) -> Schedule:
    return next(s for s in schedules() if s.name == name)


def shown(plan: Plan, name: str, *, contacts: bool = False) -> Made:
    return made(plan, named(name), Asked(on=ON, contacts=contacts))


def column(found: Made, title: str) -> list[str]:
    place = [h.title for h in found.headings].index(title)
    return [line.cells[place] for line in found.lines]


def plot(number: str, east: float, north: float = 0.0, **details):
    return new_item(
        grave.KIND,
        Rectangle(east=east, north=north, width=1.2, length=2.4),
        number=number,
        details=GraveDetails(**details),
    )


def stone(number: str, east: float, **details):
    return new_item(
        memorial.KIND,
        Rectangle(east=east, north=0, width=0.8, length=0.15),
        number=number,
        details=MemorialDetails(**details),
    )


def looked_at(item, date: str, result: Result | None, **rest):
    return new_item(
        inspection.KIND,
        details=InspectionDetails(target=item.id, date=date, result=result, **rest),
    )


@pytest.mark.parametrize("schedule", schedules(), ids=lambda s: s.name)
def test_every_schedule_can_be_made_of_nothing_and_says_what_it_rests_on(schedule):
    assert made(plan_of([]), schedule, Asked(on=ON)).lines == ()
    assert schedule.note.endswith(".")
    assert schedule.purpose.endswith(".")


def test_unsafe_memorials_stand_in_the_order_of_their_numbers_with_what_was_found():
    ten, two, sound = stone("A 10", 0, height_m=1.2), stone("A 2", 2), stone("A 3", 4)
    plan = plan_of(
        [
            ten,
            two,
            sound,
            looked_at(ten, "2026-03-14", Result.IMMEDIATE, action="Rocks."),
            looked_at(two, "2026-03-15", Result.IMMEDIATE),
            looked_at(sound, "2026-03-14", Result.SOUND),
            looked_at(sound, "2027-01-01", Result.IMMEDIATE),
        ]
    )
    found = shown(plan, "unsafe")
    assert column(found, "Memorial") == ["Memorial A 2", "Memorial A 10"]
    assert column(found, "Inspected") == ["2026-03-15", "2026-03-14"]
    assert column(found, "Action taken or wanted") == ["", "Rocks."]
    assert column(found, "Height, m") == ["", "1.20"]
    assert [line.item for line in found.lines] == [two.id, ten.id]


def test_graves_come_along_their_rows_and_those_in_none_last():
    along = [plot(f"C {n}", 0.0, n * 1.5) for n in (10, 9, 8)]
    stray = plot("A 1", 40.0, 30.0, state=State.CLOSED, coffins=2, depth_m=1.8)
    lies = [
        new_item(
            burial.KIND,
            details=BurialDetails(surname=s, forenames=f, buried=b, grave=stray.id),
        )
        for s, f, b in (("Tarn", "Ada", "1931-02-03"), ("", "", ""), ("Tarn", "Job", "1919"))
    ]
    lies.append(new_item(burial.KIND, details=BurialDetails(surname="Nowhere")))
    over, bare = stone("", 40.0, grave=stray.id), stone("Z 9", 60.0)
    found = shown(plan_of([*along, stray, *lies, over, bare]), "graves_by_row")
    assert "Nowhere" not in str(found)
    assert column(found, "Grave")[-1] == "A 1"
    assert column(found, "Row") == ["1", "1", "1", "none"]
    assert column(found, "Place") == ["1", "2", "3", ""]
    assert set(column(found, "Grave")[:3]) == {"C 8", "C 9", "C 10"}
    assert column(found, "Buried there")[-1] == "no name; Job Tarn 1919; Ada Tarn 1931"
    assert column(found, "Memorial")[-1] == "headstone"
    assert column(found, "Depth for")[-1] == "2"
    assert column(found, "Depth dug, m")[-1] == "1.80"


def test_burials_stand_by_name_whatever_their_capitals_and_nameless_ones_last():
    entries = [
        new_item(
            burial.KIND,
            number=n,
            details=BurialDetails(surname=s, forenames=f, belief=b),
        )
        for n, s, f, b in (
            ("1", "", "", None),
            ("2", "tarn", "Job", Belief.PROBABLE),
            ("3", "Tarn", "Ada", None),
            ("4", "Beck", "Zoe", None),
        )
    ]
    found = shown(plan_of(entries), "burials")
    assert column(found, "Entry") == ["4", "3", "2", "1"]
    assert column(found, "Certain") == ["", "", "probable", ""]


def kept(number: str, **told):
    return new_item(reservation.KIND, details=ReservationDetails(faculty=number, **told))


def test_reservations_stand_by_their_end_reckoned_from_the_term_where_none_is_named():
    plan = plan_of(
        [
            kept("a", stage=Stage.GRANTED),
            kept("b", stage=Stage.GRANTED, granted="1996-11-20", term_years=30.0),
            kept("c", stage=Stage.GRANTED, expires="2027-01"),
            kept("d", stage=Stage.USED, expires="2020-01-01"),
            kept("e", stage=Stage.ASKED, expires="2040-01-01", term_years=25.0),
        ]
    )
    found = shown(plan, "reservations")
    assert column(found, "Faculty") == ["b", "c", "e", "a"]
    assert column(found, "Ends") == ["2026-11-20", "2027-01", "2040-01-01", "not recorded"]
    assert column(found, "State") == ["has ended", "ends within a year", "", ""]
    assert column(found, "Term, years") == ["30", "", "25", ""]


def test_who_a_space_is_kept_for_is_told_only_where_that_is_asked_for():
    owner = new_item(owner_contact.KIND, details=OwnerContactDetails(name="Wren Sallow"))
    one = kept("7", stage=Stage.GRANTED, held_for="Ivy Sallow", contact=owner.id)
    plan = plan_of([owner, one])
    bare, asked = shown(plan, "reservations"), shown(plan, "reservations", contacts=True)
    assert "Sallow" not in str(bare)
    assert len(bare.headings) == len(bare.lines[0].cells) == len(asked.headings) - 2
    assert column(asked, "Kept for") == ["Ivy Sallow"]
    assert column(asked, "Contact") == ["Owner Wren Sallow"]


def test_a_schedule_of_living_people_is_empty_unless_asked_for():
    burials = named("burials")
    private = Schedule(
        name="x",
        title="X",
        purpose="X.",
        headings=burials.headings,
        lines=burials.lines,
        private=True,
    )
    plan = plan_of([new_item(burial.KIND)])
    assert made(plan, private, Asked(on=ON)).lines == ()
    assert len(made(plan, private, Asked(on=ON, contacts=True)).lines) == 1


def test_trees_are_told_with_sizes_protection_and_their_latest_state():
    yew = new_item(
        tree.KIND,
        shapely.Point(0, 0),
        number="T 2",
        details=TreeDetails(
            species="yew",
            stems_mm=(1200.0, 310.0),
            crown_north_m=4.0,
            height_m=11.0,
            category=Category.A,
            veteran=True,
            conservation_area=True,
        ),
    )
    birch = new_item(tree.KIND, shapely.Point(9, 0))
    looks = [
        looked_at(yew, "2025-05-01", Result.SOUND),
        looked_at(yew, "2026-05-01", Result.MINOR),
        looked_at(birch, "", Result.SOUND),
    ]
    found = shown(plan_of([birch, yew, *looks]), "trees")
    assert column(found, "No.") == ["T 2", "no number"]
    assert column(found, "Stems, mm") == ["1200, 310", ""]
    assert column(found, "Crown N / E / S / W, m") == ["4.0 / 4.0 / 4.0 / 4.0", ""]
    assert column(found, "Category") == ["A", ""]
    assert column(found, "State at the latest inspection") == [
        "minor fault, look again (2026-05-01)",
        "sound",
    ]


def test_works_to_be_done_come_by_priority_and_day_and_what_has_ended_last():
    plan = plan_of(
        [
            new_item(works.KIND, details=WorksDetails(**told))
            for told in (
                {"what": "d", "progress": Progress.DONE, "priority": Priority.NOW},
                {"what": "c", "estimate": 1250.0},
                {"what": "b", "priority": Priority.YEAR},
                {"what": "a", "priority": Priority.YEAR, "due": "2026-12-01", "leave": "F 1"},
            )
        ]
    )
    found = shown(plan, "works")
    assert column(found, "What") == ["a", "b", "c", "d"]
    assert column(found, "Estimate, £") == ["", "", "1250.00", ""]
    assert column(found, "Leave")[:2] == ["F 1", "not yet known"]


def test_what_bounds_the_ground_is_told_with_length_state_and_who_repairs():
    line = shapely.LineString([(0, 0), (30, 40)])
    ground = shapely.box(0, 0, 30, 40)
    stones = new_item(
        wall.KIND, line, details=WallDetails(material="rubble", kept_by="PCC", height_m=1.3)
    )
    plan = plan_of(
        [
            new_item(boundary.KIND, ground, details=BoundaryDetails(name="Old ground")),
            stones,
            new_item(fence.KIND, line, details=FenceDetails(material="oak")),
            new_item(hedge.KIND, ground, details=HedgeDetails(species="thorn")),
            new_item(gate.KIND, shapely.Point(1, 1), details=GateDetails(clear_width_m=1.05)),
            new_item(gate.KIND, shapely.Point(2, 1), details=GateDetails(name="North")),
            looked_at(stones, "2026-01-05", Result.IMMEDIATE),
        ]
    )
    found = shown(plan, "boundaries")
    # a 3-4-5 triangle ten times as large is 50 m along, a box of 30 m by 40 m 140 m round
    assert column(found, "Length, m") == ["140.0", "50.0", "50.0", "140.0", "1.05", ""]
    assert column(found, "Who repairs")[:2] == ["not recorded", "PCC"]
    assert column(found, "State at the latest inspection")[1] == "immediate action (2026-01-05)"
    assert column(found, "Sort and material")[:4] == [
        "",
        "rubble",
        "post and rail, oak",
        "thorn",
    ]


def test_inspections_due_come_by_day_and_those_never_done_last():
    failed, never = stone("A 1", 0), stone("A 2", 2)
    plan = plan_of([never, failed, looked_at(failed, "2026-03-14", Result.IMMEDIATE)])
    found = shown(plan, "inspections_due")
    assert column(found, "What") == ["Memorial A 1", "Memorial A 2"]
    assert column(found, "Due") == ["2026-03-14", "never done"]
    assert column(found, "Overdue") == ["yes", ""]


def test_everything_due_is_told_but_days_that_are_past():
    plan = plan_of(
        [
            stone("A 1", 0),
            new_item(works.KIND, details=WorksDetails(what="late", due="2026-01-01")),
            new_item(works.KIND, details=WorksDetails(what="far", due="2028-01-01")),
            *(
                new_item(
                    grass.KIND, shapely.box(0, 0, 1, 1), details=GrassDetails(uncut_until=day)
                )
                for day in ("2026-07-15", "2027-07-15")
            ),
        ]
    )
    found = shown(plan, "dues")
    assert column(found, "Due") == ["2026-01-01", "2027-07-15", "never done"]
    assert column(found, "Sort") == ["Works", "Grass left uncut", "Inspections"]
