"""A scan as it is found: what it is, how large, how it is turned; whether it can be used."""

import io
import math
import struct
import warnings
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import IO

from PIL import Image, UnidentifiedImageError

from plan_editor.errors import CannotRead
from plan_editor.scans.facts import COLOUR_MODES, GREY_MODES, ScanFacts
from plan_editor.scans.pdf_drawing import no_such_page
from plan_editor.scans.pdf_pages import is_pdf, pdf_facts
from plan_editor.scans.turning import turn_of

FORMATS = ("PNG", "JPEG", "TIFF", "JPEG2000")
"""What is read here, beside PDF. A camera's several pictures in one JPEG file are JPEG."""

MOST_PIXELS = 400_000_000
"""A larger scan is refused: it would not fit in the memory of an ordinary computer."""

MOST_PIXELS_1_BIT = 600_000_000
"""The same for black and white, which takes less: A0 at 600 dots per inch is 558 million."""

MOST_CMYK_PROGRESSIVE = 80_000_000
"""The same for a progressive JPEG of four colours: its coefficients alone take 640 MB."""

MOST_PAGES = 10_000
"""Pages beyond these are not counted."""

LEAST_SIDE = 16
"""A picture with fewer pixels a side is an icon and no plan."""

LIKELY_DPI = (20.0, 10_000.0)
"""A recorded resolution beyond these is a slip of whoever wrote the file."""

UNKNOWN_DPI = 72.0
"""What is written where nothing is known. Source: CIPA DC-008 (Exif 2.32), tag 282."""

# the check of sizes below knows that black and white takes less; Pillow's own stands behind it
Image.MAX_IMAGE_PIXELS = MOST_PIXELS_1_BIT

BROKEN = (
    OSError,
    SyntaxError,
    ValueError,
    TypeError,
    LookupError,
    ArithmeticError,
    AttributeError,
    EOFError,
    struct.error,
    AssertionError,
    RuntimeError,
)
"""What Pillow raises over bytes that are not what they say."""


def probe(source: bytes | Path, page: int = 1) -> ScanFacts:
    """Return the facts of a page of a scan from its head alone; a PDF is opened for it.

    A file cut short may not be noticed.

    Raises:
        CannotRead: it is no picture that can be used, or has no such page.
    """
    with stream_of(source) as stream:
        if is_pdf(stream):
            return pdf_facts(source, page)
    with opened(source, page) as (_, facts):
        return facts


@contextmanager
def opened(source: bytes | Path, page: int = 1) -> Iterator[tuple[Image.Image, ScanFacts]]:
    """Open a picture, its pixels not yet decoded, and give what it says of itself.

    Whatever goes wrong inside is taken to be the fault of the file, so do nothing else there.

    Raises:
        CannotRead: it is no picture that can be used, its pixels cannot be decoded, or it has
            no such page.
    """
    with (
        stream_of(source) as stream,
        _blaming_the_file(),
        Image.open(stream, formats=FORMATS) as image,
    ):
        yield image, _facts(image, stream, page)


def stream_of(source: bytes | Path) -> io.BytesIO | io.BufferedReader:
    """Return a file, or bytes as if they were one, open for reading.

    Raises:
        CannotRead: the file cannot be opened.
    """
    if isinstance(source, bytes):
        return io.BytesIO(source)
    try:
        return source.open("rb")
    except OSError as fault:
        raise CannotRead(
            f"The file {source} cannot be opened ({fault.strerror}); nothing was changed. "
            "Look whether it is there and may be read."
        ) from fault


@contextmanager
def _blaming_the_file() -> Iterator[None]:
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            yield
    except (Image.DecompressionBombError, Image.DecompressionBombWarning) as fault:
        raise _too_large() from fault
    except UnidentifiedImageError as fault:
        raise CannotRead(
            "This file is not a PNG, JPEG, TIFF, JPEG 2000 or PDF file, or its beginning is "
            "damaged; nothing was changed. Save the scan as one of these and try again."
        ) from fault
    except MemoryError as fault:
        raise CannotRead(
            "There is not enough memory to decode this picture; nothing was changed. "
            "Close other programs, or scan at a lower resolution."
        ) from fault
    except BROKEN as fault:
        raise CannotRead(
            "This picture is damaged or was cut short, and nothing was changed. "
            "Copy it again from where it came, or scan the plan again."
        ) from fault


def _facts(image: Image.Image, stream: IO[bytes], page: int) -> ScanFacts:
    frames = _turned_to(image, page)
    turn = turn_of(image, stream)
    sideways = turn >= 5
    across, down = image.size
    dpi = _dpi(image)
    # Pillow gives the size of a turned TIFF upright, but that of a turned JPEG or PNG as stored
    if sideways and image.format != "TIFF":
        across, down = down, across
    facts = ScanFacts(
        width=across,
        height=down,
        mode=image.mode,
        dpi=dpi[::-1] if dpi is not None and sideways else dpi,
        turn=turn,
        format="JPEG" if image.format == "MPO" else str(image.format),
        frames=frames,
        page=page,
        progressive="progressive" in image.info,
    )
    _refuse_unusable(facts)
    return facts


def _turned_to(image: Image.Image, page: int) -> int:
    """Turn to a page of a picture, and return how many there are that can be opened.

    Raises:
        CannotRead: there is no such page.
    """
    frames = _openable(image) if image.format == "TIFF" else getattr(image, "n_frames", 1)
    pages = frames if image.format == "TIFF" else 1
    if not 1 <= page <= pages:
        raise no_such_page(page, pages)
    if page > 1:
        image.seek(page - 1)
    return frames


def _openable(image: Image.Image) -> int:
    """Return how many pages of a TIFF can be opened, one after another; leave it at the first.

    One that is damaged hides those behind it, but not those before.
    """
    count = 1
    with suppress(*BROKEN):
        while count < MOST_PAGES:
            image.seek(count)
            count += 1
    image.seek(0)
    return count


def _refuse_unusable(facts: ScanFacts) -> None:
    if facts.mode not in COLOUR_MODES | GREY_MODES:
        raise CannotRead(
            f"This picture stores its pixels in a way that is not read here ({facts.mode}); "
            "nothing was changed. Save it as a grey or RGB picture and try again."
        )
    if min(facts.width, facts.height) < LEAST_SIDE:
        raise CannotRead(
            f"This picture has only {facts.width} by {facts.height} pixels, too few for "
            "a plan; nothing was changed. Scan the plan at 200 dots per inch or more."
        )
    pixels = facts.width * facts.height
    if pixels > (MOST_PIXELS_1_BIT if facts.mode == "1" else MOST_PIXELS):
        raise _too_large()
    if (facts.mode, facts.progressive) == ("CMYK", True) and pixels > MOST_CMYK_PROGRESSIVE:
        raise CannotRead(
            "This JPEG is stored in printer's colours (CMYK) and progressively, and has more "
            f"than {MOST_CMYK_PROGRESSIVE // 1_000_000} million pixels, for which there is not "
            "enough memory; nothing was changed. Save it in RGB, or not progressively."
        )


def _too_large() -> CannotRead:
    return CannotRead(
        f"This picture has more than {MOST_PIXELS // 1_000_000} million pixels "
        f"({MOST_PIXELS_1_BIT // 1_000_000} million in black and white), which is more than is "
        "read here; nothing was changed. Scan at a lower resolution, or in parts."
    )


def _dpi(image: Image.Image) -> tuple[float, float] | None:
    least, most = LIKELY_DPI
    recorded = image.info.get("dpi", (0.0, 0.0))
    try:
        across, down = (float(number) for number in recorded)
    except (TypeError, ValueError, ArithmeticError):
        return None
    if not all(math.isfinite(n) and least <= n <= most for n in (across, down)):
        return None
    return None if across == down == UNKNOWN_DPI else (across, down)
