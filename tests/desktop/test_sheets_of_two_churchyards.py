"""The sheets panel asks which churchyard where there are several, and nothing of one."""

from shapely import box

from plan_editor.desktop.panels.sheets import SheetsPanel
from plan_editor.desktop.window import PlanWindow
from plan_editor.edits.basic import Add
from plan_editor.kinds import boundary
from plan_editor.kinds.boundary import BoundaryDetails
from plan_editor.plan.item import Item, new_item


def yard(name: str, east: float) -> Item:
    details = BoundaryDetails(name=name)
    return new_item(boundary.KIND, box(east, 0, east + 40, 30), details=details)


def test_it_asks_which_where_there_are_two(window: PlanWindow) -> None:
    window.session.apply(Add((yard("St Elfric", 0.0),)))
    window.go("sheets")
    assert window.body is not None
    panel = window.body.side.panels["sheets"]
    assert isinstance(panel, SheetsPanel)
    assert panel.churchyard.isHidden()
    window.session.apply(Add((yard("Upper ground", 640.0),)))
    panel._follow.now()
    assert not panel.churchyard.isHidden()
    offered = [panel.churchyard.itemData(n) for n in range(panel.churchyard.count())]
    assert offered == ["", "St Elfric", "Upper ground"]
    panel.churchyard.setCurrentIndex(2)
    asked = panel._asked()
    assert asked is not None
    assert asked.churchyard == "Upper ground"
    # it stays chosen while the plan changes
    window.session.apply(Add((yard("Glebe", 940.0),)))
    panel._follow.now()
    assert panel.churchyard.currentData() == "Upper ground"
