"""The colours of the window and of the ground on the screen: light, dark, high contrast."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Palette:
    """Colours as ``#rrggbb``. Each text colour is readable on ground and panel alike.

    Args:
        dark: whether the ground is darker than the ink.
        ground: paper, or night.
        panel: behind lists and forms, a shade off the ground.
        line: hairlines between parts of the window.
        ink: text and lines.
        soft: text that matters less.
        moss: chosen, ready.
        rust: danger.
        straw: caution.
        slate: measured, computed.
        strong: for eyes that need high contrast: thick frames, nothing faded.
    """

    dark: bool
    ground: str
    panel: str
    line: str
    ink: str
    soft: str
    moss: str
    rust: str
    straw: str
    slate: str
    strong: bool = False


LIGHT = Palette(
    dark=False,
    ground="#FBF9F3",
    panel="#F3F0E6",
    line="#D8D3C4",
    ink="#1E2A2F",
    soft="#566268",
    moss="#44662F",
    rust="#9A3B22",
    straw="#8A6410",
    slate="#2F5D7C",
)

DARK = Palette(
    dark=True,
    ground="#161C1F",
    panel="#1D2529",
    line="#364247",
    ink="#ECE7DA",
    soft="#A9B0AE",
    moss="#A9CC8C",
    rust="#F09A7E",
    straw="#E6C15C",
    slate="#93C0DE",
)

STRONG = Palette(
    dark=False,
    ground="#FFFFFF",
    panel="#FFFFFF",
    line="#000000",
    ink="#000000",
    soft="#2E2E2E",
    moss="#1D4A00",
    rust="#8A1500",
    straw="#5A3B00",
    slate="#003E73",
    strong=True,
)
"""Every text has 7:1 at least: WCAG 2.2, success criterion 1.4.6 (AAA)."""
