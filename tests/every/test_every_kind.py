"""What holds of every kind that is declared."""

import pickle
import re
from pathlib import Path
from typing import Any

import pytest
from strategies import one_of_each

import plan_editor.kinds
from plan_editor.plan.checks import fault_of
from plan_editor.plan.detail import Value
from plan_editor.plan.item import Item
from plan_editor.plan.kind import Form, Kind, kind_named, kinds
from plan_editor.plan.look import Look, Pen
from plan_editor.plan.values import fault_of_value
from plan_editor.resources import resource

ISO_128_WIDTHS = {0.18, 0.25, 0.35, 0.5, 0.7}
"""Line widths in millimetres of the series of ISO 128-20."""

KINDS = kinds()
BY_NAME = {kind.name: kind for kind in KINDS}
OF_EACH = [pytest.param(kind, id=kind.name) for kind in KINDS]
DRAWN = [pytest.param(kind, id=kind.name) for kind in KINDS if kind.drawn]
ITEMS = [pytest.param(item, id=item.called()) for item in one_of_each().items.values()]

every_kind = pytest.mark.parametrize("kind", OF_EACH)
every_drawn_kind = pytest.mark.parametrize("kind", DRAWN)


def looks_of(kind: Kind) -> list[Look]:
    return [kind.look, *(when.look for when in kind.looks)]


def pens_of(look: Look) -> list[Pen]:
    hatch = [] if look.hatch is None else [look.hatch.pen]
    return hatch if look.pen is None else [look.pen, *hatch]


def luminance(colour: str) -> float:
    """Return the relative luminance of ``#rrggbb`` by WCAG 2.1, from 0 for black to 1."""
    shares = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [s / 12.92 if s <= 0.04045 else ((s + 0.055) / 1.055) ** 2.4 for s in shares]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def test_there_is_a_kind_for_every_file_of_the_folder() -> None:
    files = {p.stem for p in Path(plan_editor.kinds.__file__).parent.glob("[!_]*.py")}
    assert set(BY_NAME) == files


@every_kind
def test_its_name_is_that_of_its_file(kind: Kind) -> None:
    assert kind.details.__module__ == f"plan_editor.kinds.{kind.name}"
    assert kind_named(kind.name) is kind


def test_no_two_have_the_same_name_title_or_element() -> None:
    for told in ("name", "title", "plural", "element"):
        assert len({getattr(kind, told) for kind in KINDS}) == len(KINDS), told


@every_kind
def test_its_layer_has_the_fields_of_iso_13567(kind: Kind) -> None:
    # ISO 13567-2: agent responsible 2, element 6, presentation 2 characters
    assert re.fullmatch(r"[A-Z]{3,6}", kind.element)
    assert len(kind.layer) == 10
    agent, element, presentation = kind.layer[:2], kind.layer[2:8], kind.layer[8:]
    assert (agent, element.rstrip("-"), presentation) == ("Z-", kind.element, "E-")


@every_kind
def test_it_explains_itself(kind: Kind) -> None:
    assert kind.title[0].isupper()
    assert kind.help.endswith(".")
    assert "!" not in kind.help


@every_drawn_kind
def test_it_has_a_line_in_the_key_for_each_look(kind: Kind) -> None:
    lines = [kind.legend, *(when.legend for when in kind.looks)]
    assert len(set(lines)) == len(lines)
    assert all(lines) or kind.name == "base_plan"  # what lies under the plan has no line


@every_kind
def test_each_detail_has_a_title_and_its_default_is_allowed(kind: Kind) -> None:
    titles = [detail.about.title for detail in kind.entries()]
    assert all(titles)
    assert len(set(titles)) == len(titles)
    assert [fault_of_value(d, d.default) for d in kind.entries()] == [""] * len(titles)


@every_kind
def test_each_detail_says_what_it_needs_to(kind: Kind) -> None:
    for detail in kind.entries():
        told = detail.about
        assert not told.help or (told.help.endswith(".") and "!" not in told.help), detail.name
        if told.low is not None and told.high is not None:
            assert told.low < told.high
        if detail.value is Value.NUMBER and detail.name.rsplit("_", 1)[-1] in {"m", "mm"}:
            assert told.unit == detail.name.rsplit("_", 1)[-1], detail.name


@every_kind
def test_no_detail_is_named_as_what_every_item_has(kind: Kind) -> None:
    assert not {d.name for d in kind.entries()} & set(Item.__slots__)


@every_kind
def test_its_references_are_to_kinds_that_there_are(kind: Kind) -> None:
    for detail in kind.references():
        assert detail.optional
        assert set(detail.about.refers_to) <= set(BY_NAME), detail.name


@every_kind
def test_what_it_names_among_its_details_is_there(kind: Kind) -> None:
    details = kind.details()
    for told in filter(None, (kind.width, kind.label, kind.crown, kind.roots)):
        assert hasattr(details, told)
    assert kind.width_m(details) >= 0.0
    assert kind.crown_m(details) is None
    assert kind.roots_m(details) is None


@pytest.mark.parametrize("kind", [k for k in kinds() if k.facing], ids=lambda k: k.name)
def test_what_faces_somewhere_is_a_point_and_that_may_be_left_open(kind: Kind) -> None:
    (told,) = (d for d in kind.entries() if d.name == kind.facing)
    assert Form.POINT in kind.forms
    assert (told.about.low, told.about.high, told.about.unit) == (0.0, 360.0, "°")
    assert kind.facing_deg(kind.details()) is None


@every_kind
def test_each_other_look_goes_by_a_value_that_the_detail_may_have(kind: Kind) -> None:
    details = {d.name: d for d in kind.entries()}
    for when in kind.looks:
        assert fault_of_value(details[when.detail], when.value) == ""
        assert type(when.value) in {bool, *map(type, details[when.detail].choices)}
        assert kind.look_of(kind.details(**{when.detail: when.value})) is when.look


@every_kind
def test_it_is_drawn_with_pens_of_the_iso_series(kind: Kind) -> None:
    for pen in (pen for look in looks_of(kind) for pen in pens_of(look)):
        assert pen.width in ISO_128_WIDTHS
        assert all(length > 0 for length in pen.dash)
        assert len(pen.dash) % 2 == 0


@every_kind
def test_its_lines_are_dark_and_its_fills_pale_enough_for_a_copy(kind: Kind) -> None:
    for look in looks_of(kind):
        assert look.fill is None or luminance(look.fill) > 0.75, look.fill
        for pen in pens_of(look):
            # 4.5 : 1 on white is what WCAG 2.1 asks of text
            assert 1.05 / (luminance(pen.colour) + 0.05) > 4.5, pen.colour


@every_drawn_kind
def test_two_looks_of_it_differ_without_their_colour(kind: Kind) -> None:
    inks = [_without_colour(look) for look in looks_of(kind)]
    assert len(set(inks)) == len(inks)


def _without_colour(look: Look) -> Any:
    pens = [(pen.width, pen.dash) for pen in pens_of(look)]
    hatch = look.hatch and (look.hatch.pattern, look.hatch.angle_deg, look.hatch.spacing)
    return tuple(pens), hatch, look.along, look.symbol, look.across, look.solid, look.head_bar


@every_kind
def test_its_symbols_are_there(kind: Kind) -> None:
    for look in looks_of(kind):
        if look.symbol:
            assert resource(f"symbols/{look.symbol}.svg").is_file()


@every_drawn_kind
def test_a_point_has_a_symbol_and_nothing_else_has_a_head(kind: Kind) -> None:
    for look in looks_of(kind):
        assert (Form.POINT in kind.forms) == bool(look.symbol)
        assert not look.head_bar or Form.RECTANGLE in kind.forms


@every_kind
def test_it_goes_to_another_process_and_is_the_same_there(kind: Kind) -> None:
    assert pickle.loads(pickle.dumps(kind)) is kind  # noqa: S301  # our own bytes


@every_kind
def test_what_has_no_place_stands_in_no_way(kind: Kind) -> None:
    assert kind.drawn or not kind.blocks


@pytest.mark.parametrize("item", ITEMS)
def test_an_item_of_it_is_sound_empty_and_full(item: Item[Any]) -> None:
    assert fault_of(item) == ""
    assert item.called().startswith(item.kind.title)
    assert pickle.loads(pickle.dumps(item)) == item  # noqa: S301  # our own bytes
