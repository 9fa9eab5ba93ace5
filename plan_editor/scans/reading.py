"""A scan as it is found: what it is, how large, how it is turned; whether it can be used."""

import io
import math
import struct
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import IO

from PIL import ExifTags, Image, UnidentifiedImageError

from plan_editor.errors import CannotRead

FORMATS = ("PNG", "JPEG", "TIFF")
"""What is read. A camera's several pictures in one JPEG file count as JPEG."""

MOST_PIXELS = 400_000_000
"""A larger scan is refused: it would not fit in the memory of an ordinary computer."""

MOST_PIXELS_1_BIT = 600_000_000
"""The same for black and white, which takes less: A0 at 600 dots per inch is 558 million."""

LEAST_SIDE = 16
"""A picture with fewer pixels a side is an icon and no plan."""

LIKELY_DPI = (20.0, 10_000.0)
"""A recorded resolution beyond these is a slip of whoever wrote the file."""

UNKNOWN_DPI = 72.0
"""What is written where nothing is known. Source: CIPA DC-008 (Exif 2.32), tag 282."""

COLOUR_MODES = frozenset({"RGB", "RGBA", "RGBX", "P", "PA", "CMYK", "YCbCr"})
GREY_MODES = frozenset({"1", "L", "LA", "I;16", "I;16B", "I;16L"})

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


@dataclass(frozen=True, slots=True, kw_only=True)
class ScanFacts:
    """What a scan says of itself.

    Args:
        width: pixels across, upright.
        height: pixels down, upright.
        mode: how a pixel is stored, as Pillow names it: ``1``, ``L``, ``RGB`` …
        dpi: recorded dots per inch across and down, upright; None where none that can be.
        turn: EXIF orientation, 1 to 8; 1 is upright as stored.
        format: ``PNG``, ``JPEG`` or ``TIFF``.
        frames: pages or pictures in the file; the first is used.
    """

    width: int
    height: int
    mode: str
    dpi: tuple[float, float] | None
    turn: int
    format: str
    frames: int

    @property
    def colour(self) -> bool:
        """Whether it has colour; otherwise it is grey, or black and white."""
        return self.mode in COLOUR_MODES


def probe(source: bytes | Path) -> ScanFacts:
    """Return the facts of a scan from its head alone; a file cut short may not be noticed.

    Raises:
        CannotRead: it is no picture that can be used.
    """
    with opened(source) as (_, facts):
        return facts


@contextmanager
def opened(source: bytes | Path) -> Iterator[tuple[Image.Image, ScanFacts]]:
    """Open a scan, its pixels not yet decoded, and give what it says of itself.

    Whatever goes wrong inside is taken to be the fault of the file, so do nothing else there.

    Raises:
        CannotRead: it is no picture that can be used, or its pixels cannot be decoded.
    """
    with (
        stream_of(source) as stream,
        _blaming_the_file(),
        Image.open(stream, formats=FORMATS) as image,
    ):
        yield image, _facts(image, stream)


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
            "This file is not a PNG, JPEG or TIFF picture, or its beginning is damaged; "
            "nothing was changed. Save the scan as one of these and try again."
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


def _facts(image: Image.Image, stream: IO[bytes]) -> ScanFacts:
    turn = _turn(image, stream)
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
        frames=getattr(image, "n_frames", 1),
    )
    _refuse_unusable(facts)
    return facts


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
    most = MOST_PIXELS_1_BIT if facts.mode == "1" else MOST_PIXELS
    if facts.width * facts.height > most:
        raise _too_large()


def _too_large() -> CannotRead:
    return CannotRead(
        f"This picture has more than {MOST_PIXELS // 1_000_000} million pixels "
        f"({MOST_PIXELS_1_BIT // 1_000_000} million in black and white), which is more than is "
        "read here; nothing was changed. Scan at a lower resolution, or in parts."
    )


def _turn(image: Image.Image, stream: IO[bytes]) -> int:
    turn = _exif(image, stream).get(ExifTags.Base.Orientation, 1)
    return turn if isinstance(turn, int) and 1 <= turn <= 8 else 1


def _exif(image: Image.Image, stream: IO[bytes]) -> Image.Exif:
    """Return the EXIF records without decoding the pixels.

    WORKAROUND: asked for those of a PNG, Pillow decodes all of it, since they may stand at the
    end. Source of the order of chunks: PNG specification, third edition, 5.3 and 5.6.
    """
    if image.format != "PNG":
        return image.getexif()
    exif = Image.Exif()
    exif.load(b"Exif\x00\x00" + _png_chunk(stream, b"eXIf"))
    return exif


def _png_chunk(stream: IO[bytes], wanted: bytes) -> bytes:
    """Return the content of the last chunk of a name in a whole PNG, or nothing.

    Raises:
        struct.error: the file ends before its closing chunk.
    """
    place = stream.tell()
    stream.seek(8)
    found, name = b"", b""
    while name != b"IEND":
        length, name = struct.unpack(">I4s", stream.read(8))
        if name == wanted:
            found = stream.read(length)
        else:
            stream.seek(length, io.SEEK_CUR)
        stream.seek(4, io.SEEK_CUR)
    stream.seek(place)
    return found


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
