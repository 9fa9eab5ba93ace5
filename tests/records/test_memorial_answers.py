"""An application against the parish's regulations: what complies, what takes a faculty.

The published limits are those of the common pattern (headstones from 750 by 500 by 75 mm to
1200 by 900 by 150 mm) as Birstall and other parishes print their diocese's regulations.
"""

from dataclasses import replace

import pytest
from shapely import box

from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import application, building, burial, grave, memorial, parish, vault
from plan_editor.kinds.application import ApplicationDetails, AskedFor, Shape
from plan_editor.plan.item import Item, new_item
from plan_editor.plan.plan import plan_of
from plan_editor.records.answer_words import by_verdict, comes_of
from plan_editor.records.memorial_answers import Answer, Verdict, answers, gravest

ON = "2026-11-25"
SPACE = new_item(
    grave.KIND,
    Rectangle(east=10, north=0, width=1.22, length=2.74),
    number="C 14",
    details=grave.GraveDetails(dug="2026-02-01"),
)
CHURCH = new_item(
    building.KIND, box(-20, -10, 0, 10), details=building.BuildingDetails(use="Parish church")
)
FIGURES = new_item(
    parish.KIND, details=parish.ParishDetails(memorial_materials="Sandstone, slate,")
)
ASKED = ApplicationDetails(
    grave=SPACE.id,
    form=Shape.HEADSTONE,
    height_mm=1000.0,
    width_mm=700.0,
    thickness_mm=100.0,
    material="York sandstone",
    base_width_mm=900.0,
    base_depth_mm=300.0,
    foundation_width_mm=1100.0,
    foundation_depth_mm=500.0,
    inscription="Ada Farrow\n1943–2026",
    lettering="Cut, not painted",
)

ACROSS = "Foundation at each side"
DEEP = "Foundation in front and behind"


def told(
    *others: Item, on: str = ON, of: ApplicationDetails = ASKED, **changed: object
) -> dict[str, Answer]:
    asked = new_item(application.KIND, details=replace(of, **changed))
    plan = plan_of([SPACE, *(others or (CHURCH, FIGURES)), asked])
    found = answers(plan, asked, on)
    assert len({a.title for a in found}) == len(found)
    return {a.title: a for a in found}


def verdict(title: str, *others: Item, **changed: object) -> Verdict:
    return told(*others, **changed)[title].verdict


def test_a_common_headstone_complies_with_every_rule() -> None:
    found = told()
    assert {a.title: a.verdict for a in found.values() if a.verdict != "complies"} == {
        "Inscription": Verdict.JUDGE,
        "Lettering": Verdict.JUDGE,
    }
    assert gravest(found.values()) is Verdict.JUDGE
    assert set(found) == {
        "Form",
        "Height",
        "Width",
        "Thickness",
        "Base at each side",
        "Base in front and behind",
        "Foundation at each side",
        "Foundation in front and behind",
        "Material",
        "Kerbs",
        "Inscription",
        "Lettering",
        "Distance from the church",
        "Settling",
    }
    assert all(a.source for a in found.values())
    assert (found["Height"].told, found["Height"].bound) == ("1,000 mm", "750 to 1,200 mm")


@pytest.mark.parametrize(
    ("title", "name", "inside", "outside"),
    [
        ("Height", "height_mm", (750.0, 1200.0), (749.0, 1201.0)),
        ("Width", "width_mm", (700.0, 900.0), (499.0, 901.0)),
        ("Thickness", "thickness_mm", (75.0, 150.0), (74.0, 151.0)),
        # 100 mm at each side of 700, and not narrower than the stone
        ("Base at each side", "base_width_mm", (700.0, 900.0), (699.0, 902.0)),
        # 100 mm in front and as much behind 100
        ("Base in front and behind", "base_depth_mm", (100.0, 300.0), (301.0,)),
        # 75 to 125 mm round a base of 900 by 300
        (ACROSS, "foundation_width_mm", (1050.0, 1150.0), (1048.0, 1152.0)),
        (DEEP, "foundation_depth_mm", (450.0, 550.0), (448.0, 552.0)),
    ],
)
def test_the_published_bounds_are_inclusive(
    title: str, name: str, inside: tuple[float, ...], outside: tuple[float, ...]
) -> None:
    assert {verdict(title, **{name: size}) for size in inside} == {Verdict.COMPLIES}
    assert {verdict(title, **{name: size}) for size in outside} == {Verdict.FACULTY}
    found = told(**{name: None})
    if "Foundation" not in title:
        assert found[title].verdict is Verdict.NOT_TOLD


def test_a_vase_lets_the_base_stand_out_by_200_mm_in_front() -> None:
    deep = "Base in front and behind"
    assert verdict(deep, base_depth_mm=400.0) is Verdict.FACULTY
    assert verdict(deep, base_depth_mm=400.0, vase=True) is Verdict.COMPLIES
    assert verdict(deep, base_depth_mm=401.0, vase=True) is Verdict.FACULTY


def test_slate_may_be_thinner() -> None:
    # 38 mm: 453churches.com on memorials
    assert verdict("Thickness", thickness_mm=38.0, material="Welsh slate") is Verdict.COMPLIES
    assert verdict("Thickness", thickness_mm=37.0, material="Welsh slate") is Verdict.FACULTY


def test_a_stone_without_a_base_is_measured_itself() -> None:
    found = told(
        base_width_mm=None,
        base_depth_mm=None,
        foundation_width_mm=900.0,
        foundation_depth_mm=300.0,
    )
    assert found["Base at each side"].verdict is Verdict.NOT_TOLD
    assert "third of its length" in found["Base at each side"].note
    assert found["Foundation at each side"].verdict is Verdict.COMPLIES
    assert found["Foundation in front and behind"].verdict is Verdict.COMPLIES


def test_a_cross_has_a_greatest_height_and_no_least() -> None:
    assert verdict("Height", form=Shape.CROSS, height_mm=600.0) is Verdict.COMPLIES
    assert verdict("Height", form=Shape.CROSS, height_mm=1201.0) is Verdict.FACULTY
    assert verdict("Thickness", form=Shape.CROSS, thickness_mm=50.0) is Verdict.COMPLIES


@pytest.mark.parametrize(
    ("length", "width", "expected"),
    [
        # Bath and Wells pattern, as Wrington prints it: 1200 by 600 to 2100 by 900
        (2100.0, 900.0, Verdict.COMPLIES),
        (900.0, 2100.0, Verdict.COMPLIES),
        (1200.0, 600.0, Verdict.COMPLIES),
        (2101.0, 900.0, Verdict.FACULTY),
        (2100.0, 599.0, Verdict.FACULTY),
    ],
)
def test_a_ledger_has_a_length_and_a_width(
    length: float, width: float, expected: Verdict
) -> None:
    found = told(form=Shape.LEDGER, height_mm=length, width_mm=width)
    assert gravest((found["Length"], found["Width"])) is expected
    assert "Thickness" not in found
    assert "Distance from the church" not in found


def test_an_ashes_tablet_is_450_by_400() -> None:
    found = told(form=Shape.TABLET, height_mm=400.0, width_mm=450.0)
    sides = found["Longer side"], found["Shorter side"]
    assert {a.verdict for a in sides} == {Verdict.COMPLIES}
    assert verdict("Shorter side", form=Shape.TABLET, height_mm=401.0, width_mm=450.0) == (
        Verdict.FACULTY
    )
    assert verdict("Longer side", form=Shape.TABLET, height_mm=None) is Verdict.NOT_TOLD
    assert verdict("Shorter side", form=Shape.TABLET, width_mm=None) is Verdict.NOT_TOLD


def test_forms_materials_and_kerbs_outside_the_regulations_take_a_faculty() -> None:
    assert verdict("Form", form=Shape.OTHER) is Verdict.FACULTY
    assert verdict("Form", form=Shape.UNKNOWN) is Verdict.NOT_TOLD
    assert verdict("Material", material="Polished granite") is Verdict.FACULTY
    assert verdict("Material", material=" ") is Verdict.NOT_TOLD
    assert verdict("Material", CHURCH) is Verdict.NOT_TOLD  # of a parish without a list
    assert verdict("Kerbs", kerbs=True) is Verdict.FACULTY
    allowed = new_item(parish.KIND, details=parish.ParishDetails(kerbs_allowed=True))
    assert verdict("Kerbs", allowed, kerbs=True) is Verdict.COMPLIES


def test_inscription_and_lettering_are_held_against_the_parishes_own_rules() -> None:
    own = new_item(
        parish.KIND,
        details=parish.ParishDetails(
            inscription_rule="No pet names.", lettering_rule="", wording_source="Rule 9."
        ),
    )
    found = told(own)
    words = found["Inscription"]
    assert (words.told, words.bound) == ("Ada Farrow / 1943–2026", "No pet names.")
    assert (words.verdict, words.source, words.note) == (Verdict.JUDGE, "Rule 9.", "")
    # a parish without a rule on its plan, and a family that has not said
    assert found["Lettering"].verdict is Verdict.NOT_TOLD
    assert found["Lettering"].bound == "the parish has no rule on its plan"
    assert "diocese's regulations" in found["Lettering"].note
    assert verdict("Inscription", own, inscription=" \n ") is Verdict.NOT_TOLD
    assert told(own, inscription="A long text " * 99)["Inscription"].told.endswith(" …")
    assert parish.ParishDetails().wording_source


@pytest.mark.parametrize(
    ("material", "expected"),
    [
        ("Limestone", Verdict.COMPLIES),
        ("honed grey granite", Verdict.COMPLIES),
        ("YORK  stone, riven", Verdict.COMPLIES),
        ("polished black granite", Verdict.JUDGE),
        ("imitation limestone", Verdict.JUDGE),
        ("Reconstituted limestone", Verdict.JUDGE),
        ("artificial granite", Verdict.JUDGE),
        ("not granite", Verdict.JUDGE),
        ("granite and marble", Verdict.JUDGE),
        ("granite, marble base", Verdict.JUDGE),
        ("limestone-effect resin", Verdict.FACULTY),
        ("granitex", Verdict.FACULTY),
        ("stone from York", Verdict.FACULTY),
        ("marble", Verdict.FACULTY),
        ("no marble", Verdict.FACULTY),
        ("cast stone", Verdict.COMPLIES),  # the list names it
    ],
)
def test_materials_are_matched_by_whole_words(material: str, expected: Verdict) -> None:
    listed = "granite, Limestone; York stone, cast stone, no marble"
    own = new_item(parish.KIND, details=parish.ParishDetails(memorial_materials=listed))
    found = told(own, material=material)["Material"]
    assert found.verdict is expected
    assert bool(found.note) is (expected is Verdict.JUDGE)


@pytest.mark.parametrize("material", ["imitation slate", "not slate", "slate-grey granite"])
def test_only_slate_may_be_as_thin_as_slate(material: str) -> None:
    assert verdict("Thickness", thickness_mm=38.0, material=material) is Verdict.FACULTY


def church_until(east: float) -> Item:
    return new_item(building.KIND, box(-20, -10, east, 10))


def test_a_headstone_stands_1200_mm_from_the_outer_wall_of_the_church() -> None:
    # Bath and Wells pattern; the back of the stone is on the head of the grave, at 10 m east
    assert verdict("Distance from the church", church_until(8.8)) is Verdict.COMPLIES
    assert verdict("Distance from the church", church_until(8.801)) is Verdict.FACULTY
    assert told(church_until(8.8))["Distance from the church"].told == "1.20 m on the plan"


def test_a_shed_is_no_church() -> None:
    shed = new_item(
        building.KIND, box(9, 0, 9.9, 2), details=building.BuildingDetails(use="Tool shed")
    )
    assert verdict("Distance from the church", shed) is Verdict.NOT_TOLD
    assert verdict("Distance from the church", shed, CHURCH) is Verdict.COMPLIES


def test_a_stone_that_stands_is_measured_where_it_stands() -> None:
    stone = new_item(memorial.KIND, Rectangle(east=0.5, north=0, width=0.7, length=0.1))
    found = told(stone, CHURCH, memorial=stone.id, width_mm=None)
    assert found["Distance from the church"].verdict is Verdict.FACULTY
    assert verdict("Distance from the church", CHURCH, grave=None) is Verdict.NOT_TOLD
    # without its size the whole grave is measured
    assert (
        verdict("Distance from the church", church_until(8.9), width_mm=None) is Verdict.FACULTY
    )


def test_a_grave_settles_first() -> None:
    assert verdict("Settling", on="2026-07-31") is Verdict.WAIT
    assert verdict("Settling", on="2026-08-01") is Verdict.COMPLIES
    assert verdict("Settling", grave=None) is Verdict.NOT_TOLD
    late = new_item(
        burial.KIND, details=burial.BurialDetails(grave=SPACE.id, buried="2026-10-02")
    )
    assert told(CHURCH, late)["Settling"].told == "settled by 2027-04-02"
    ashes = replace(late, details=replace(late.details, sort=burial.BurialSort.ASHES))
    assert verdict("Settling", CHURCH, ashes) is Verdict.COMPLIES
    built = new_item(vault.KIND, Rectangle(east=10, north=9, width=2, length=3))
    assert verdict("Settling", CHURCH, built, grave=built.id) is Verdict.NOT_TOLD


def test_of_an_inscription_or_a_removal_nothing_more_is_asked() -> None:
    bare = ApplicationDetails(asked_for=AskedFor.INSCRIPTION)
    # an inscription that is asked for is asked for; nothing else is
    assert set(told(of=bare)) == {"Inscription", "Lettering", "Kerbs"}
    assert set(told(of=bare, asked_for=AskedFor.REPAIR)) == {"Kerbs"}
    away = told(of=bare, asked_for=AskedFor.REMOVAL)
    assert away["Asked for"].verdict is Verdict.FACULTY
    assert gravest(()) is Verdict.NOT_TOLD


def test_what_stands_in_the_way_is_told_first_and_one_by_one() -> None:
    found = tuple(told(on="2026-07-01", height_mm=1300.0, material="", kerbs=True).values())
    assert comes_of(found) == "It takes a faculty: height, kerbs."
    assert by_verdict(found)[:4] == (
        "Height: 1,300 mm; allowed: 750 to 1,200 mm.",
        "Kerbs: asked for; allowed: none without faculty.",
        "Settling: settled by 2026-08-01; allowed: 6 months from the last digging.",
        "Not told: material.",
    )
    assert by_verdict(found)[-1].startswith("Complies: form, width, thickness,")
    judged = by_verdict(found)[-3:-1]
    assert judged[0] == (
        "Inscription: Ada Farrow / 1943–2026; for the incumbent to judge by: Simple, reverent"
        " and true."
    )
    assert comes_of(tuple(told().values())) == (
        "It complies with the figures on the plan; for the incumbent to judge: inscription,"
        " lettering."
    )
    plain = tuple(a for a in told().values() if a.verdict is Verdict.COMPLIES)
    assert comes_of(plain) == "It complies with the figures on the plan."
    assert comes_of(tuple(told(on="2026-07-01").values())) == "It is too early: settling."
    assert comes_of(()) == "It complies as far as it is told; not told: everything."
    assert by_verdict(()) == ()
