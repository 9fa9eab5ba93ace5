"""Ink to PDF: exact to scale, our own fonts embedded, nothing half-made left behind."""

import errno
import os
import tempfile
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from functools import cache
from itertools import groupby
from math import cos, radians, sin
from pathlib import Path
from typing import Literal

from reportlab import rl_config
from reportlab.lib.colors import HexColor
from reportlab.lib.utils import ImageReader
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from plan_editor.drawing.ink import Anchor, Clipped, Fill, Ink, Picture, Points, Stroke, Text
from plan_editor.drawing.lettering import Face, runs, width
from plan_editor.errors import CannotPrint, NoRoom, NotAllowed
from plan_editor.plan.look import Pen
from plan_editor.printing.images import png
from plan_editor.printing.sheet import Page, Printed
from plan_editor.resources import resource

POINTS_PER_MM = 72.0 / 25.4
"""A PDF unit is 1/72 inch (ISO 32000-1, 8.3.2.3)."""

PAPER = "#FFFFFF"

_FILLED: Literal[0] = 0
_STROKED: Literal[1] = 1
_BEFORE = {Anchor.LEFT: 0.0, Anchor.MIDDLE: 0.5, Anchor.RIGHT: 1.0}

Progress = Callable[[float], None]
Cancelled = Callable[[], bool]


def write(
    printed: Printed,
    out: Path,
    *,
    progress: Progress = lambda _: None,
    cancelled: Cancelled = lambda: False,
) -> bool:
    """Write the pages of a sheet to a PDF file, which appears whole or not at all.

    Args:
        printed: the pages.
        out: the file; one of that name is replaced.
        progress: told the share that is done.
        cancelled: asked before each page and each thing drawn on it.

    Returns:
        Whether it was written; False where it was cancelled.

    Raises:
        CannotPrint: there is no such folder, or the name is taken by a folder.
        NoRoom: the disk is full.
        NotAllowed: the folder or the file may not be written.
    """
    try:
        return _written_whole(printed, out, progress, cancelled)
    except OSError as fault:
        raise _explained(fault, out) from fault


def _written_whole(
    printed: Printed, out: Path, progress: Progress, cancelled: Cancelled
) -> bool:
    handle, name = tempfile.mkstemp(dir=out.parent, prefix=f".{out.name}.", suffix=".part")
    made = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            content = _content(printed, progress, cancelled)
            if content is None:
                return False
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        made.chmod(0o666 & ~_umask())
        made.replace(out)
    finally:
        with suppress(FileNotFoundError):
            made.unlink()
    progress(1.0)
    return True


@cache
def _umask() -> int:
    # can only be read by setting it
    mask = os.umask(0o022)
    os.umask(mask)
    return mask


def _content(printed: Printed, progress: Progress, cancelled: Cancelled) -> bytes | None:
    _prepared()
    canvas = Canvas(
        "",
        invariant=1,
        pageCompression=1,
        initialFontName=Face.REGULAR.value,  # type: ignore[arg-type]  # its stub says float
        lang="en-GB",
    )
    canvas.setTitle(printed.title)
    canvas.setCreator("Churchyard Plan Editor")
    canvas.setProducer("Churchyard Plan Editor")
    canvas.setViewerPreference("PrintScaling", "None")
    canvas.setViewerPreference("DisplayDocTitle", "true")
    total = sum(len(page.ink) for page in printed.pages) or 1
    done = 0
    for page in printed.pages:
        pen = _start(canvas, page)
        for together in _in_turn(page.ink):
            if cancelled():
                return None
            pen.draw(together)
            done += len(together)
            progress(0.95 * done / total)
        canvas.showPage()
    content: bytes = canvas.getpdfdata()  # type: ignore[no-untyped-call]  # has no types
    return content


def _start(canvas: Canvas, page: Page) -> "_OnCanvas":
    size = (page.width * POINTS_PER_MM, page.height * POINTS_PER_MM)
    canvas.setPageSize(size)
    canvas.setCropBox((0, 0, *size))  # of two numbers it would write a box of two
    canvas.scale(POINTS_PER_MM, POINTS_PER_MM)
    canvas.setLineJoin(1)
    return _OnCanvas(canvas)


class _Path:
    """A path as the canvas takes it: text of drawing operators, made many points at a time."""

    def __init__(self, lines: Sequence[Points], *, closed: bool) -> None:
        self._lines = lines
        self._closed = closed

    def getCode(self) -> str:  # noqa: N802  # reportlab's name
        return "\n".join(
            _template(len(line), self._closed) % tuple(line.ravel().tolist())
            for line in self._lines
        )


@cache
def _template(count: int, closed: bool) -> str:  # noqa: FBT001  # cached by both
    # a tenth of a micrometre of paper
    return "%.4f %.4f m" + " %.4f %.4f l" * (count - 1) + (" h" if closed else "")


class _OnCanvas:
    """Draws ink on a canvas that is scaled to millimetres."""

    def __init__(self, canvas: Canvas) -> None:
        self._canvas = canvas
        self._pen: Pen | None = None
        self._ink: str | None = None

    def draw(self, together: Sequence[Ink]) -> None:
        """Draw one piece of ink, or texts of one colour, over what is there."""
        ink = together[0]
        match ink:
            case Stroke():
                self._take(ink.pen)
                path = _Path(ink.lines, closed=ink.closed)
                self._canvas.drawPath(path, stroke=1, fill=0)
            case Fill():
                self._dip(ink.colour)
                path = _Path(ink.rings, closed=True)
                self._canvas.drawPath(path, stroke=0, fill=1, fillMode=0)
            case Text():
                self.write([t for t in together if isinstance(t, Text)])
            case Picture():
                self._show(ink)
            case Clipped():  # pragma: no branch  # there is no other
                self._clip(ink)

    def _take(self, pen: Pen) -> None:
        if pen != self._pen:
            self._canvas.setLineWidth(pen.width)
            self._canvas.setStrokeColor(HexColor(pen.colour))
            self._canvas.setDash(list(pen.dash))
            self._canvas.setLineCap(0)
            self._pen = pen

    def _dip(self, colour: str) -> None:
        if colour != self._ink:
            self._canvas.setFillColor(HexColor(colour))
            self._ink = colour

    def _clip(self, clipped: Clipped) -> None:
        left, bottom, right, top = clipped.box
        self._canvas.saveState()
        path = self._canvas.beginPath()
        path.rect(left, bottom, right - left, top - bottom)
        self._canvas.clipPath(path, stroke=0, fill=0)
        for together in _in_turn(clipped.ink):
            self.draw(together)
        self._canvas.restoreState()
        # the canvas has forgotten what was set inside
        self._pen = self._ink = None

    def _show(self, picture: Picture) -> None:
        self._canvas.saveState()
        self._canvas.setFillAlpha(picture.opacity)
        self._canvas.drawImage(
            ImageReader(png(picture.pixels)),
            picture.left,
            picture.bottom,
            width=picture.right - picture.left,
            height=picture.top - picture.bottom,
        )
        self._canvas.restoreState()

    def write(self, texts: Sequence[Text]) -> None:
        """Draw texts of one colour and halo, which stand next to each other in the ink."""
        first = texts[0]
        if first.halo:
            self._take(Pen(width=2 * first.halo, colour=PAPER))
            self._lettered(texts, _STROKED)
        self._dip(first.colour)
        self._lettered(texts, _FILLED)

    def _lettered(self, texts: Sequence[Text], mode: Literal[0, 1]) -> None:
        letters = self._canvas.beginText()
        letters.setTextRenderMode(mode)
        font = ("", 0.0)
        for text in texts:
            c, s = _way(text.turn_deg)
            along = -_BEFORE[text.anchor] * width(text.text, bold=text.bold) * text.size
            for run in runs(text.text, bold=text.bold):
                if font != (run.face.value, text.size):
                    font = (run.face.value, text.size)
                    letters.setFont(*font)
                x, y = text.x + c * along, text.y + s * along
                letters.setTextTransform(c, s, -s, c, x, y)
                letters.textLine(run.text)
                along += width(run.text, bold=text.bold) * text.size
        letters.setTextRenderMode(_FILLED)
        self._canvas.drawText(letters)


@cache
def _way(turn_deg: float) -> tuple[float, float]:
    return cos(radians(turn_deg)), sin(radians(turn_deg))


@cache
def _prepared() -> None:
    # compressed pages as they are: turned into letters they would be larger and slower
    rl_config.useA85 = 0
    for face in Face:
        path = resource(f"fonts/{face.value}.ttf")
        pdfmetrics.registerFont(TTFont(face.value, str(path)))


def _in_turn(ink: Sequence[Ink]) -> Iterator[tuple[Ink, ...]]:
    """Yield pieces of ink singly, but texts that go in one stroke of the pen together."""
    for _, pieces in groupby(ink, key=_hand):
        together = tuple(pieces)
        if isinstance(together[0], Text):
            yield together
        else:
            yield from ((piece,) for piece in together)


def _hand(ink: Ink) -> tuple[str, float] | None:
    return (ink.colour, ink.halo) if isinstance(ink, Text) else None


def _explained(fault: OSError, out: Path) -> CannotPrint | NoRoom | NotAllowed:
    kept = "Nothing was written."
    if fault.errno in {errno.ENOSPC, errno.EDQUOT, errno.EFBIG}:
        return NoRoom(f"There is no room left for {out.name} in {out.parent}. {kept}")
    if fault.errno in {errno.EACCES, errno.EPERM, errno.EROFS, errno.EBUSY}:
        return NotAllowed(
            f"{out.name} may not be written in {out.parent}: it is write-protected or open in "
            f"another program. {kept} Choose another folder or another name."
        )
    if fault.errno in {errno.ENOENT, errno.ENOTDIR}:
        return CannotPrint(f"There is no folder {out.parent}. {kept} Choose another folder.")
    if fault.errno == errno.EISDIR:
        return CannotPrint(f"{out} is a folder. {kept} Choose another name.")
    why = fault.strerror or "the disk does not take it"
    return CannotPrint(f"{out} cannot be written: {why}. {kept}")
