"""What is read from the declaration of a kind."""

from dataclasses import dataclass, field
from enum import StrEnum

import pytest
from strategies import kind_of

from plan_editor.kinds import burial, tracing
from plan_editor.plan.detail import Value, about
from plan_editor.plan.item import ItemId
from plan_editor.plan.kind import Form, Kind, burial_kinds, kind_named, kind_of_ours, kinds


class Wood(StrEnum):
    OAK = "oak"
    ASH = "ash"


@dataclass(frozen=True, slots=True, kw_only=True)
class StileDetails:
    name: str = field(default="", metadata=about("Name"))
    story: str = field(default="", metadata=about("Story", long=True))
    built: str = field(default="", metadata=about("Built", date=True))
    steps: int | None = field(default=None, metadata=about("Steps", low=1))
    height_m: float = field(default=1.0, metadata=about("Height", unit="m"))
    wood: Wood = field(default=Wood.OAK, metadata=about("Wood"))
    sound: bool = field(default=True, metadata=about("Sound"))
    beside: ItemId | None = field(default=None, metadata=about("Beside", refers_to=("path",)))
    posts: tuple[float, ...] = field(default=(), metadata=about("Posts"))


STILE = Kind(
    name="stile", title="Stile", plural="Stiles", forms=(Form.POINT,), details=StileDetails
)


def test_a_field_says_what_sort_of_value_it_holds() -> None:
    told = {d.name: (d.value, d.optional) for d in STILE.entries()}
    assert told == {
        "name": (Value.TEXT, False),
        "story": (Value.LONG_TEXT, False),
        "built": (Value.DATE, False),
        "steps": (Value.WHOLE, True),
        "height_m": (Value.NUMBER, False),
        "wood": (Value.CHOICE, False),
        "sound": (Value.YES_NO, False),
        "beside": (Value.ITEM, True),
        "posts": (Value.NUMBERS, False),
    }


def test_an_entry_has_the_default_the_choices_and_what_is_told_of_it() -> None:
    by_name = {d.name: d for d in STILE.entries()}
    assert by_name["wood"].choices == (Wood.OAK, Wood.ASH)
    assert by_name["height_m"].default == 1.0
    assert by_name["height_m"].about.unit == "m"
    assert [d.name for d in STILE.references()] == ["beside"]


def test_a_kind_that_the_program_names_itself_is_there_or_its_name_is_misspelt() -> None:
    assert kind_of_ours("path").title == "Path"
    with pytest.raises(LookupError, match="'pahts'"):
        kind_of_ours("pahts")


def test_kinds_come_in_the_order_in_which_they_are_drawn() -> None:
    orders = [kind.order for kind in kinds()]
    assert orders == sorted(orders)
    assert kinds()[0].name == "base_plan"


def test_a_name_that_no_kind_has_finds_none() -> None:
    assert kind_named("stile") is None
    assert kind_named("path") is kind_of("path")


def test_two_kinds_of_one_name_are_the_same_and_nothing_else_is() -> None:
    again = Kind(
        name="stile", title="Step", plural="Steps", forms=(Form.LINE,), details=StileDetails
    )
    assert again == STILE
    assert hash(again) == hash(STILE)
    assert STILE != "stile"
    assert kind_of("path") != STILE


def test_what_is_not_declared_of_a_kind_is_nothing() -> None:
    plain = StileDetails()
    assert STILE.width_m(plain) == 0.0
    assert STILE.crown_m(plain) is None
    assert STILE.roots_m(plain) is None
    assert STILE.look_of(plain) is STILE.look
    assert STILE.drawn
    assert not kind_of("burial").drawn


def test_a_width_that_was_not_measured_is_none() -> None:
    path = kind_of("path")
    assert path.width_m(path.details(width_m=2.5)) == 2.5
    assert path.width_m(path.details(width_m=None)) == 0.0


@pytest.mark.parametrize(
    ("name", "one"),
    [
        ("path", "a path"),
        ("ashes_plot", "an ashes plot"),
        ("grass", "grass"),
        ("owner_contact", "an owner"),
    ],
)
def test_one_of_a_kind_in_a_sentence(name: str, one: str) -> None:
    assert kind_of(name).one == one


def test_a_reference_to_a_space_for_burials_may_point_to_each_kind_that_holds_them() -> None:
    spaces = [k.name for k in burial_kinds()]
    assert sorted(spaces) == ["ashes_plot", "grave", "vault"]
    (lies_in,) = (d for d in burial.KIND.references() if d.name == "grave")
    (of,) = (d for d in tracing.KIND.references() if d.name == "target")
    assert list(lies_in.about.refers_to) == spaces
    assert list(of.about.refers_to) == ["memorial", *spaces]
