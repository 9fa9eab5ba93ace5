"""The pictures of the README, from the tour and from the sheets of the sample.

By hand, under a virtual screen::

    xvfb-run -a -s "-screen 0 1700x1100x24" env QT_QPA_PLATFORM=xcb \
        python -m tests.stories.pictures
"""

import sys
import tempfile
from io import BytesIO
from pathlib import Path

from PIL import Image
from PySide6.QtWidgets import QApplication

from plan_editor.desktop.canvas.palette import DARK, LIGHT, Palette
from plan_editor.desktop.preview import draw_sheet
from plan_editor.printing.sheet import Asked, sheets
from plan_editor.resources import sample
from tests.stories.tour import tour

FOLDER = Path(__file__).parents[2] / "resources" / "pictures"
WINDOWS = {
    "window": "light-*-grave chosen",
    "safety": "light-*-inspection recorded",
    "fitting": "light-*-fit with a slip",
    "field-book": "light-*-field book",
    "row": "light-*-row",
    "window-dark": "dark-*-tree",
}
"""Which pictures of the tour are kept, whatever their numbers."""

SHEET_PX = 1600
DAY = "2026-05-16"
"""The day on which the sample's story is told."""

PALE = 0.35


def kept(picture: Image.Image, name: str) -> None:
    """Write a picture with 256 colours, ours among them, so that it is light to carry."""
    plain = picture.convert("RGB")
    own = [c for p in (LIGHT, DARK) for c in _colours(p)]
    found = plain.quantize(256 - len(own), method=Image.Quantize.MEDIANCUT, kmeans=4)
    palette = Image.new("P", (1, 1))
    few = (found.getpalette() or [])[: 3 * (256 - len(own))]
    palette.putpalette([*few, *(n for c in own for n in c)])
    small = plain.quantize(palette=palette, dither=Image.Dither.NONE)
    small.save(FOLDER / f"{name}.png", optimize=True)


def _colours(palette: Palette) -> list[tuple[int, ...]]:
    named = (palette.moss, palette.rust, palette.straw, palette.slate, palette.ink)
    ground = _rgb(palette.ground)
    full = [_rgb(c) for c in named]
    # the edges of thin lines are paler
    pale = [
        tuple(round(PALE * g + (1 - PALE) * c) for c, g in zip(colour, ground, strict=True))
        for colour in full
    ]
    return [ground, *full, *pale]


def _rgb(colour: str) -> tuple[int, ...]:
    return tuple(int(colour[i : i + 2], 16) for i in (1, 3, 5))


def main() -> int:
    """Take the pictures anew."""
    FOLDER.mkdir(exist_ok=True)
    qt = QApplication(sys.argv[:1])
    with tempfile.TemporaryDirectory() as folder:
        tour(Path(folder), qt)
        for name, taken in WINDOWS.items():
            (picture,) = Path(folder).glob(f"{taken}.png")
            kept(Image.open(picture), name)
    for sheet in (s for s in sheets() if not s.about):
        asked = Asked(date=DAY, maker="The sample")
        png, _ = draw_sheet(sample("harrowmere.gpkg"), sheet.name, asked, SHEET_PX)
        kept(Image.open(BytesIO(png)), sheet.name)
    return 0


if __name__ == "__main__":
    sys.exit(main())
