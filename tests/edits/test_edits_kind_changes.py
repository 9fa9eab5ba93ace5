"""Things that become another kind."""

from dataclasses import replace

import pytest
from shapely import LineString, box
from strategies import kind_of, plain

from plan_editor.edits.kind_changes import ChangeKind, kinds_for, lost, place_as
from plan_editor.errors import EditRefused
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds.grave import State as GraveState
from plan_editor.kinds.vault import State as VaultState
from plan_editor.plan.document import Document
from plan_editor.plan.item import BASE_PLAN, Basis, Method, Status
from plan_editor.plan.kind import Form
from plan_editor.plan.plan import Plan, plan_of

FENCE, WALL, HEDGE, PATH = map(kind_of, ("fence", "wall", "hedge", "path"))
GRAVE, STONE, GRASS, VAULT = map(kind_of, ("grave", "memorial", "grass", "vault"))
ALONG = LineString([(0, 0), (30, 0)])
fence = plain(FENCE, 1).at(ALONG)
fence = replace(
    fence,
    details=replace(fence.details, height_m=1.2, kept_by="the farm", remarks="leans"),
    number="F 2",
    status=Status.PROPOSED,
    basis=Basis(method=Method.TAPED, sd_m=0.05),
)
way = plain(PATH, 2).at(ALONG)
grave = plain(GRAVE, 3).on(Rectangle(east=10, north=20, width=1.2, length=2.7))
stone = plain(STONE, 4)
stone = replace(stone, details=replace(stone.details, grave=grave.id))
works = plain(kind_of("works"), 5)
works = replace(works, details=replace(works.details, target=fence.id))
PLAN = plan_of([fence, way, grave, stone, works])


def after(edit: ChangeKind, plan: Plan = PLAN) -> Plan:
    document = Document(plan)
    document.apply(edit)
    document.undo()
    assert document.plan.items == plan.items
    document.redo()
    return document.plan


def refusal(edit: ChangeKind, plan: Plan = PLAN) -> str:
    with pytest.raises(EditRefused) as caught:
        after(edit, plan)
    assert "Nothing was changed." in str(caught.value)
    return str(caught.value)


def test_what_is_recorded_under_the_same_name_is_kept_and_the_rest_is_named() -> None:
    edit = ChangeKind(ids=(fence.id,), kind=WALL, called="fence F 2")
    wall = after(edit).items[edit.became[0]]
    assert wall.kind is WALL
    assert wall.shape == ALONG
    assert (wall.number, wall.status, wall.basis) == ("F 2", Status.PROPOSED, fence.basis)
    assert (wall.details.height_m, wall.details.remarks) == (1.2, "leans")
    assert edit.title == "Make fence F 2 into a wall"
    # nothing that was said of this fence has no place on a wall but its sort
    assert set(lost((fence,), WALL)) <= {"Sort", "Kept up by", "Material"}
    assert fence.id not in after(edit).items


def test_a_used_grave_becomes_a_used_vault_by_the_states_of_vaults() -> None:
    used = replace(grave, details=replace(grave.details, state=GraveState.OCCUPIED))
    edit = ChangeKind(ids=(used.id,), kind=VAULT)
    found = after(edit, plan_of([used])).items[edit.became[0]]
    assert found.details.state is VaultState.OCCUPIED
    assert "State" not in lost((used,), VAULT)


def test_what_points_to_it_follows_where_it_may() -> None:
    edit = ChangeKind(ids=(fence.id,), kind=HEDGE)
    assert after(edit).items[works.id].details.target == edit.became[0]


def test_of_two_references_only_the_one_that_leads_there_follows() -> None:
    wish = plain(kind_of("application"), 8)
    wish = replace(wish, details=replace(wish.details, grave=grave.id, memorial=stone.id))
    edit = ChangeKind(ids=(grave.id,), kind=VAULT)
    told = after(edit, plan_of([grave, stone, wish])).items[wish.id].details
    assert (told.grave, told.memorial) == (edit.became[0], stone.id)


def test_a_grave_with_a_stone_becomes_a_vault_but_no_bench() -> None:
    edit = ChangeKind(ids=(grave.id,), kind=VAULT)
    told = after(edit).items
    assert told[stone.id].details.grave == edit.became[0]
    assert told[edit.became[0]].rectangle == grave.rectangle
    why = refusal(ChangeKind(ids=(grave.id,), kind=kind_of("bench")))
    assert stone.called() in why
    assert "a bench" in why


def test_things_that_point_to_one_another_become_something_together() -> None:
    both = ChangeKind(ids=(grave.id, stone.id), kind=kind_of("bench"))
    assert after(both).count(kind_of("bench")) == 2


def test_a_path_along_its_middle_becomes_grass_over_its_width() -> None:
    edit = ChangeKind(ids=(way.id,), kind=GRASS)
    lawn = after(edit).items[edit.became[0]]
    assert lawn.form is Form.AREA
    assert lawn.shape.equals(box(0, -0.75, 30, 0.75))
    bare = replace(way, details=replace(way.details, width_m=None))
    refusal(ChangeKind(ids=(way.id,), kind=GRASS), plan_of([bare]))


def test_what_has_another_form_is_refused() -> None:
    assert "another form" in refusal(ChangeKind(ids=(fence.id,), kind=GRAVE))
    refusal(ChangeKind(ids=(fence.id,), kind=FENCE))
    assert place_as(plain(kind_of("burial")), GRAVE) is None
    assert place_as(plain(kind_of(BASE_PLAN)), GRASS) is None


def test_an_area_with_four_right_angles_becomes_a_rectangle() -> None:
    lawn = plain(GRASS, 6).at(box(0, 0, 2, 1))
    held = place_as(lawn, GRAVE)
    assert isinstance(held, Rectangle)
    assert {round(held.width, 3), round(held.length, 3)} == {1.0, 2.0}
    assert place_as(grave, GRASS) == grave.shape
    bent = plain(GRASS, 7).at(box(0, 0, 9, 9).difference(box(4, 4, 9, 9)))
    assert place_as(bent, GRAVE) == bent.shape
    assert place_as(bent, FENCE) is None


def test_the_kinds_that_all_could_become_are_offered_by_their_titles() -> None:
    names = [k.name for k in kinds_for((fence,))]
    assert {"wall", "hedge", "path"} <= set(names)
    assert "fence" not in names
    assert "grave" not in names
    assert kinds_for(()) == ()
    assert "path" not in {k.name for k in kinds_for((fence, way))}


def test_what_lies_out_of_the_other_kinds_range_is_lost() -> None:
    broad = replace(way, details=replace(way.details, width_m=15.0))
    assert "Width" in lost((broad,), HEDGE)
