from plan_editor.ground.base_plans import laid
from plan_editor.kinds import base_plan
from plan_editor.kinds.base_plan import BasePlanDetails, Content
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of

FIT = (0.1, 0.0, 5.0, 0.0, -0.1, 9.0)


def test_only_what_was_placed_lies_under_the_ground():
    on_the_desk = new_item(base_plan.KIND, details=BasePlanDetails(name="unplaced"))
    placed = new_item(
        base_plan.KIND,
        details=BasePlanDetails(
            name="1962",
            content=Content.DRAWING,
            fit=FIT,
            copyright="© The parish.",
            licence="12",
            reproducible=True,
        ),
    )
    (found,) = laid(plan_of([on_the_desk, placed]))
    assert (found.item, found.name, found.is_scan, found.fit) == (placed.id, "1962", False, FIT)
    assert found.reproducible
    assert found.acknowledgement == "© The parish. Licence 12."


def test_nothing_to_acknowledge_is_an_empty_line():
    plain = new_item(base_plan.KIND, details=BasePlanDetails(fit=FIT))
    assert laid(plan_of([plain]))[0].acknowledgement == ""
