"""Base plans made ready for the ground on the screen; runs in a thread."""

from pathlib import Path

from plan_editor.commands.backdrops import drawing_in, scan_on_shelf, shelf
from plan_editor.desktop.canvas.base_plan_item import Under
from plan_editor.desktop.trial_shelf import coarse
from plan_editor.drawing.backdrop import LineWork
from plan_editor.errors import CannotRead
from plan_editor.ground.base_plans import Laid
from plan_editor.plan.media import Media
from plan_editor.scans.resampling import NorthUp, north_up


def made_ready(
    placed: tuple[Laid, ...], media: Media, known: tuple[Under, ...], trial: Path | None = None
) -> tuple[Under, ...]:
    """Return base plans with what the screen draws of them.

    Args:
        placed: which, and where.
        media: their bytes.
        known: those that are on the screen now; what was read of them is used again.
        trial: the folder for scans that are only tried, as coarse as need be; None for those
            that are to stay.

    Raises:
        CannotRead, DamagedPlan: the kept bytes are not what they were.
        CannotUse: a fit would flatten a scan, fold it over or tear it.
        NoRoom, NotAllowed: there is no place for the decoded scan.
    """
    had = {(u.laid.digest, u.laid.page, u.laid.mapping): u.content for u in known}
    lines = {u.laid.digest: u.content for u in known if not u.laid.is_scan}
    return tuple(
        Under(
            laid=one,
            content=had.get((one.digest, one.page, one.mapping))
            or lines.get(one.digest)
            or _content(one, media, trial),
        )
        for one in placed
    )


def _content(one: Laid, media: Media, trial: Path | None) -> NorthUp | LineWork:
    content = media.read(one.digest)
    if not one.is_scan:
        return drawing_in(content, ".dxf").line_work
    scan = scan_on_shelf(content, one.page)
    on_shelf = (scan, shelf()) if trial is None else (coarse(scan), trial)
    turned = north_up(on_shelf[0], one.mapping, on_shelf[1])
    if turned is None:  # it is only None where someone may cancel
        raise CannotRead(f"{one.name} was not laid out; nothing was changed. Try it again.")
    return turned
