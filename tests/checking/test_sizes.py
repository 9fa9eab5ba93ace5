import pytest
import shapely
from churchyards import found, grave_at, ground

from plan_editor.checking.rules.sizes import SIZES
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import ashes_plot, building, memorial, tree, wall
from plan_editor.kinds.memorial import MemorialDetails, MemorialForm
from plan_editor.kinds.tree import TreeDetails
from plan_editor.kinds.wall import WallDetails
from plan_editor.plan.item import new_item

RULE = "sizes"
FOOT = 0.3048


def stone(width: float, thickness: float, **details):
    place = Rectangle(east=0, north=0, width=width, length=thickness)
    return new_item(memorial.KIND, place, details=MemorialDetails(**details))


def test_a_grave_12_m_long_is_found() -> None:
    (finding,) = found(RULE, (grave_at(0, 0, "A 1", size=(1.22, 12.0)),))
    assert finding.text.startswith("Grave A 1 is long: 12.00 m, more than 4 m.")
    assert "Stockton-on-Tees" in finding.text


@pytest.mark.parametrize(
    ("broad", "long"),
    [
        (4 * FOOT, 9 * FOOT),  # Stockton-on-Tees council, burial regulations
        (5 * FOOT, 10 * FOOT),  # the same, lawn plots
        (4 * FOOT, 10 * FOOT),  # Rochford council, enlarged plots
        (4 * FOOT, 8 * FOOT),  # National Association of Local Councils, 2021
        (0.76, 2.44),  # Melbourn parish council, as dug
    ],
)
def test_plots_of_published_regulations_are_not_found(broad: float, long: float) -> None:
    assert found(RULE, (grave_at(0, 0, size=(broad, long)),)) == ()


def test_feet_taken_for_metres_are_found() -> None:
    texts = [f.text for f in found(RULE, (grave_at(0, 0, size=(4, 9)),))]
    assert len(texts) == 1


@pytest.mark.parametrize(
    ("broad", "thick", "high"),
    [
        (0.9, 0.15, 1.2),  # the largest in most dioceses
        (0.9, 0.18, 1.2),  # Bath and Wells pattern
        (0.5, 0.075, 0.75),  # the least in both
        (0.375, 0.05, 0.6),  # Birstall, for infants
    ],
)
def test_stones_that_diocesan_rules_allow_are_not_found(
    broad: float, thick: float, high: float
) -> None:
    assert found(RULE, (stone(broad, thick, height_m=high),)) == ()
    cross = stone(broad, thick, height_m=1.5, form=MemorialForm.CROSS)  # Guildford
    assert found(RULE, (cross,)) == ()


def test_a_ledger_of_the_largest_size_is_not_found_and_a_thick_headstone_is() -> None:
    # Bath and Wells pattern: ledgers up to 2.1 m by 0.9 m
    assert found(RULE, (stone(0.9, 2.1, form=MemorialForm.LEDGER),)) == ()
    assert "is thick: 2.10 m" in found(RULE, (stone(0.9, 2.1),))[0].text


def test_an_ashes_plot_of_70_by_60_cm_is_not_found_and_one_of_7_m_is() -> None:
    # Fenstanton parish, diocese of Ely
    small = Rectangle(east=0, north=0, width=0.7, length=0.6)
    large = Rectangle(east=0, north=0, width=7.0, length=6.0)
    assert found(RULE, (new_item(ashes_plot.KIND, small),)) == ()
    assert len(found(RULE, (new_item(ashes_plot.KIND, large),))) == 1


def test_an_ancient_yew_is_not_found_and_a_stem_of_5_m_is() -> None:
    # 7 m in girth is ancient (Ancient Yew Group): 2228 mm through
    yew = new_item(tree.KIND, shapely.Point(0, 0), details=TreeDetails(stems_mm=(2228.0,)))
    slip = new_item(tree.KIND, shapely.Point(0, 0), details=TreeDetails(stems_mm=(5000.0,)))
    assert found(RULE, (yew,)) == ()
    assert "has a stem of 5.00 m" in found(RULE, (slip,))[0].text


def test_a_crown_a_wall_and_a_ground_out_of_all_proportion_are_found() -> None:
    crown = new_item(tree.KIND, shapely.Point(0, 0), details=TreeDetails(crown_east_m=30.0))
    along = shapely.LineString([(0, 0), (9, 0)])
    thick = new_item(wall.KIND, along, details=WallDetails(width_m=5.0))
    tiny = ground(shapely.box(0, 0, 5, 5))
    assert len(found(RULE, (crown, thick, tiny))) == 3


def test_what_has_no_size_by_itself_is_passed_over() -> None:
    outline = new_item(wall.KIND, shapely.box(0, 0, 9, 5), details=WallDetails(width_m=5.0))
    plain = new_item(wall.KIND, shapely.LineString([(0, 0), (9, 0)]))
    line = ground(shapely.LineString([(0, 0), (9, 0)]))
    church = new_item(building.KIND, shapely.box(0, 0, 30, 10))
    young = new_item(tree.KIND, shapely.Point(0, 0))
    assert found(RULE, (outline, plain, line, church, young)) == ()


def test_every_size_names_where_its_figures_come_from() -> None:
    assert all(s.source.endswith(".") and s.low < s.high for s in SIZES)
