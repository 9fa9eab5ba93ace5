"""What a scan says of itself, and what is read of it only in part."""

from dataclasses import dataclass

COLOUR_MODES = frozenset({"RGB", "RGBA", "RGBX", "P", "PA", "CMYK", "YCbCr", "LAB"})
GREY_MODES = frozenset({"1", "L", "LA", "I;16", "I;16B", "I;16L", "I", "F"})
WIDE_GREYS = frozenset({"I", "F"})
"""Greys of 32 bits, whole or broken numbers: what is black and white in them is not told."""

HALVED_1_BIT = 150_000_000
"""Black and white of more pixels is kept as grey at half the resolution, to save disk."""

HALVED_JPEG = 180_000_000
"""A colour JPEG of more pixels is decoded at half resolution, to stay within 1 GB of memory."""

HALVED_PROGRESSIVE = 100_000_000
"""The same for a progressive one, of which the decoder holds all coefficients as well."""

HALVED_PROGRESSIVE_CMYK = 50_000_000
"""The same of four colours, none of which is kept coarser: eight bytes to a pixel besides."""

HALVED_JPEG_2000 = 40_000_000
"""A JPEG 2000 of more pixels is halved until it has fewer, at most to a quarter: it is unpacked
to four bytes a number, and once more while that is done."""


USUAL_PDF_DPI = 299.0
"""A page of a PDF drawn at fewer dots per inch than this was too large for the usual ones."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ScanFacts:
    """What a scan says of itself.

    Args:
        width: pixels across, upright.
        height: pixels down, upright.
        mode: how a pixel is stored, as Pillow names it: ``1``, ``L``, ``RGB`` …
        dpi: recorded dots per inch across and down, upright; None where none that can be.
        turn: EXIF orientation, 1 to 8; 1 is upright as stored.
        format: ``PNG``, ``JPEG``, ``TIFF``, ``JPEG2000`` or ``PDF``.
        frames: pages or pictures in the file.
        page: which of the pages this is, from 1.
        progressive: of a JPEG, whether all of it must be held to decode any of it.
    """

    width: int
    height: int
    mode: str
    dpi: tuple[float, float] | None
    turn: int
    format: str
    frames: int
    page: int = 1
    progressive: bool = False

    @property
    def colour(self) -> bool:
        """Whether it has colour; otherwise it is grey, or black and white."""
        return self.mode in COLOUR_MODES

    @property
    def pages(self) -> int:
        """How many pages there are to choose from; a camera's second picture is none."""
        return self.frames if self.format in {"TIFF", "PDF"} else 1

    @property
    def scale(self) -> int:
        """How many pixels each way become one when it is read: 1, or a power of two."""
        pixels = self.width * self.height
        if self.format == "JPEG2000":
            scale = 1
            while pixels > HALVED_JPEG_2000 * scale**2:
                scale *= 2
            return scale
        if self.format == "JPEG":
            return 2 if pixels > self._most_of_a_jpeg else 1
        return 2 if self.mode == "1" and pixels > HALVED_1_BIT else 1

    @property
    def remarks(self) -> tuple[str, ...]:
        """What of it is lost or changed when it is read, in whole sentences."""
        told = []
        if self.format == "PDF" and self.dpi is not None and self.dpi[0] < USUAL_PDF_DPI:
            told.append(f"It is very large and is drawn at {self.dpi[0]:.3g} dots per inch.")
        if self.scale > 1:
            part = "half" if self.scale == 2 else "a quarter of"
            told.append(f"It is very large and is kept at {part} its resolution.")
        if self.mode == "CMYK":
            told.append("Its printer's colours are shown only roughly.")
        if self.mode.startswith("I;16"):
            told.append("Its 65,536 greys are kept as 256.")
        if self.mode in WIDE_GREYS:
            told.append("Its greys, from its darkest to its lightest, are kept as 256.")
        return tuple(told)

    @property
    def _most_of_a_jpeg(self) -> int:
        if not self.progressive:
            return HALVED_JPEG
        return HALVED_PROGRESSIVE_CMYK if self.mode == "CMYK" else HALVED_PROGRESSIVE
