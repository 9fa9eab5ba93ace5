"""Icons, plan symbols and fonts as they lie in the resources."""

from pathlib import Path

import pytest
from defusedxml.ElementTree import parse
from fontTools.ttLib import TTFont
from PySide6.QtSvg import QSvgRenderer

from plan_editor.resources import resource

ICONS = sorted(resource("icons").glob("*.svg"))
SYMBOLS = sorted(resource("symbols").glob("*.svg"))
FONTS = sorted(resource("fonts").glob("*.ttf"))

INK = "#1E2A2F"  # replaced by the window to suit its palette
NUMBERS_OF = {
    "circle": {"cx", "cy", "r"},
    "line": {"x1", "y1", "x2", "y2"},
    "polyline": {"points"},
    "polygon": {"points"},
    "rect": {"x", "y", "width", "height"},
}


def _name(path: Path) -> str:
    return path.stem


@pytest.mark.parametrize("icon", ICONS, ids=_name)
def test_an_icon_can_be_drawn_and_inked(icon: Path) -> None:
    assert QSvgRenderer(str(icon)).isValid()
    assert INK in icon.read_text(encoding="utf-8")


@pytest.mark.parametrize("icon", [i for i in ICONS if i.stem != "app"], ids=_name)
def test_an_icon_is_one_ink_on_a_grid_of_24(icon: Path) -> None:
    drawn = parse(icon).getroot()
    assert drawn.get("viewBox") == "0 0 24 24"
    assert drawn.get("stroke-width") == "1.5"
    inks = {e.get(key) for e in drawn.iter() for key in ("stroke", "fill")}
    assert inks <= {None, "none", INK}


@pytest.mark.parametrize("symbol", SYMBOLS, ids=_name)
def test_a_symbol_is_made_of_the_five_elements_within_its_box(symbol: Path) -> None:
    drawn = parse(symbol).getroot()
    assert drawn.get("viewBox") == "-10 -10 20 20"
    assert len(drawn) > 0
    for part in drawn:
        name = part.tag.rpartition("}")[2]
        numbers = {key: part.attrib.pop(key) for key in NUMBERS_OF[name]}
        places = [float(n) for text in numbers.values() for n in text.replace(",", " ").split()]
        assert all(-10 <= n <= 20 for n in places)
        assert set(part.attrib) <= {"fill", "stroke", "stroke-width"}
        assert (part.get("fill"), part.get("stroke")) in {("none", "#000"), ("#000", "none")}


@pytest.mark.parametrize("font", FONTS, ids=_name)
def test_a_font_has_the_letters_of_a_churchyard_and_may_be_embedded(font: Path) -> None:
    opened = TTFont(font)
    missing = [c for c in "ŵŷŴŶłŁ′″½¼°×–†éøß" if ord(c) not in opened.getBestCmap()]
    assert not missing
    assert "glyf" in opened  # outlines that the PDF writer can embed
    assert opened["OS/2"].fsType == 0  # 0: installable, no limit on embedding (OpenType 1.9)


def test_the_signs_that_the_first_font_lacks_are_in_the_other() -> None:
    letters = TTFont(resource("fonts") / "DejaVuSansCondensed.ttf").getBestCmap()
    assert all(ord(c) in letters for c in "✝☩⌀")
