"""The palettes and the fonts.

Contrast: WCAG 2.2, success criterion 1.4.3 (AA, 4.5:1 for text), relative luminance as defined
there.
"""

import pytest
from PySide6.QtWidgets import QApplication

from plan_editor.desktop.app import Application
from plan_editor.desktop.canvas.palette import DARK, LIGHT, STRONG, Palette
from plan_editor.desktop.canvas.style import style
from plan_editor.desktop.theme import FAMILY, dress, icon
from plan_editor.plan.item import Status
from plan_editor.plan.kind import kinds
from plan_editor.resources import resource

TEXTS = ("ink", "soft", "moss", "rust", "straw", "slate")


def _luminance(colour: str) -> float:
    channels = (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    red, green, blue = (
        c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _contrast(one: str, other: str) -> float:
    low, high = sorted((_luminance(one), _luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_the_measure_itself_black_on_white_is_21_to_1() -> None:
    assert _contrast("#000000", "#FFFFFF") == pytest.approx(21.0)


@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize("name", TEXTS)
def test_every_text_is_readable_on_ground_and_panel(palette: Palette, name: str) -> None:
    colour = getattr(palette, name)
    assert _contrast(colour, palette.ground) >= 4.5
    assert _contrast(colour, palette.panel) >= 4.5


@pytest.mark.parametrize("name", TEXTS)
def test_with_high_contrast_every_text_has_seven_to_one(name: str) -> None:
    # WCAG 2.2, success criterion 1.4.6 (AAA)
    assert _contrast(getattr(STRONG, name), STRONG.ground) >= 7.0
    assert _contrast(getattr(STRONG, name), STRONG.panel) >= 7.0


def test_with_high_contrast_every_line_and_name_on_the_ground_has_seven_to_one() -> None:
    for kind in kinds():
        for look in (kind.look, *(w.look for w in kind.looks)):
            for status in Status:
                drawn = style(look, status, STRONG)
                for colour in (drawn.pen.color(), drawn.thin.color(), drawn.colour):
                    assert _contrast(colour.name(), STRONG.ground) >= 7.0


def test_high_contrast_is_put_on_and_remembered(house: Application) -> None:
    house.dress("contrast")
    assert house.palette is STRONG
    assert house.preferences.colours == "contrast"
    house.dress("light")
    assert house.palette is LIGHT


def test_what_is_chosen_in_a_list_is_readable(qapp: QApplication) -> None:
    for palette in (LIGHT, DARK):
        assert _contrast(palette.ink, palette.line) >= 4.5
        assert _contrast(palette.ground, palette.moss) >= 4.5


def test_text_grows_with_the_font_of_the_system(qapp: QApplication) -> None:
    dress(qapp, LIGHT)
    assert FAMILY in qapp.font().families()
    assert qapp.font().pointSizeF() >= 7.0


@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=["light", "dark"])
def test_icons_are_drawn_in_the_ink_of_the_palette(
    qapp: QApplication, palette: Palette
) -> None:
    for file in resource("icons").glob("*.svg"):
        drawn = icon(file.stem, palette).pixmap(24, 24).toImage()
        shades = {
            drawn.pixelColor(x, y).name().upper()
            for x in range(drawn.width())
            for y in range(drawn.height())
            if drawn.pixelColor(x, y).alpha() == 255
        }
        assert not shades or palette.ink in shades or file.stem == "app", file.stem
