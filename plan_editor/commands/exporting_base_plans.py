"""A placed base plan written for other programs: with a world file, or as a GeoTIFF."""

from dataclasses import dataclass
from pathlib import Path

from plan_editor.commands.backdrops import scan_on_shelf
from plan_editor.commands.making import KeptIn, check_out
from plan_editor.commands.reading import Read, read
from plan_editor.errors import CannotUse
from plan_editor.exchange.whole import written_whole
from plan_editor.ground.base_plans import Laid, laid, listed
from plan_editor.plan.item import ItemId
from plan_editor.scans.facts import ScanFacts
from plan_editor.scans.geotiff import Place, world_file, write_geotiff
from plan_editor.scans.reading import probe
from plan_editor.scans.referencing import world_file_names
from plan_editor.survey.grids.grid import Grid

GEOTIFF = (".tif", ".tiff")
"""How the names end of pictures that are laid north up and say themselves where they lie."""

_AS_THEY_ARE = {
    "PNG": (".png",),
    "JPEG": (".jpg", ".jpeg"),
    "JPEG2000": (".jp2", ".j2k", ".jpx"),
}
"""How the names end of pictures that are written as they came, with a world file."""

_NOT_CLEARED = (
    "It is not recorded that this base plan may be reproduced. Settle that before the file is"
    " passed on."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class WrittenBasePlan:
    """What was written.

    Args:
        path: the picture.
        world_file: beside it; None of a GeoTIFF, which needs none.
        metres_per_pixel: of a GeoTIFF; None of a picture as it came.
        crs: the system of its coordinates.
        basis: how well it lies where it is said to, in plain words.
        remarks: what whoever uses it should know, in plain words.
    """

    path: Path
    world_file: Path | None
    metres_per_pixel: float | None
    crs: str
    basis: str
    remarks: tuple[str, ...]


def write_base_plan(plan_path: Path, item: ItemId, out: Path) -> WrittenBasePlan:
    """Write a placed scan in the plan's coordinates; the end of the name says how.

    ``.tif`` is a GeoTIFF, laid north up through whatever fit; ``.png``, ``.jpg`` or ``.jp2`` is
    the scan as it came, where it is one of these, with a world file beside it.

    Args:
        plan_path: a plan's file, or the working copy of one that is open.
        item: the base plan.
        out: the picture; one of that name is replaced.

    Raises:
        CannotUse: it is no scan, is not placed, or cannot be written under that name.
        CannotRead, FileProblem: the plan or the scan cannot be read, or the file not written.
    """
    found = read(plan_path)
    one = next((b for b in laid(found.plan) if b.item == item), None)
    if one is None:
        raise CannotUse("That base plan is not placed, so nothing was written.")
    return _write(plan_path, found, one, out)


def write_base_plan_named(plan_path: Path, name: str, out: Path) -> WrittenBasePlan:
    """Write a placed scan that bears a name; see ``write_base_plan``.

    Raises:
        CannotUse, CannotRead, FileProblem: as there, or none or several bear the name.
    """
    found = read(plan_path)
    return _write(plan_path, found, _named(found, name), out)


def suffix_as_it_came(plan_path: Path, item: ItemId) -> str:
    """Return how the name of a placed scan must end that is written with a world file.

    Raises:
        CannotUse: it is no placed scan, bends, or is of a sort that is written as GeoTIFF only.
        CannotRead: the plan or the scan cannot be read.
    """
    one = next((b for b in laid(read(plan_path).plan) if b.item == item), None)
    if one is None or not one.is_scan:
        raise CannotUse("That base plan is no scan that is placed, so nothing was written.")
    facts = probe(KeptIn(plan_path).read(one.digest), one.page)
    if facts.format not in _AS_THEY_ARE:
        raise CannotUse(
            f"“{one.name}” came as {facts.format}, which is written as a GeoTIFF only; nothing"
            " was written."
        )
    suffix = _AS_THEY_ARE[facts.format][0]
    _refuse_as_it_came(facts, one, Path(f"{one.digest}{suffix}"))
    return suffix


def _named(found: Read, name: str) -> Laid:
    known = [one for one in listed(found.plan) if one.name == name]
    if not known:
        names = ", ".join(f"“{one.name}”" for one in listed(found.plan)) or "none"
        raise CannotUse(
            f"There is no base plan “{name}”; nothing was written. There are: {names}."
        )
    if len(known) > 1:
        raise CannotUse(
            f"{len(known)} base plans are called “{name}”; nothing was written. Give them names"
            " of their own first."
        )
    if not known[0].placed:
        raise CannotUse(
            f"“{name}” is not placed yet, so nothing was written. Place it by points first."
        )
    return next(one for one in laid(found.plan) if one.name == name)


def _write(plan_path: Path, found: Read, one: Laid, out: Path) -> WrittenBasePlan:
    check_out(out, plan_path)
    if not one.is_scan:
        raise CannotUse(
            f"“{one.name}” is a drawing, not a scan; nothing was written."
            " Write the plan as DXF."
        )
    content = KeptIn(plan_path).read(one.digest)
    grid = found.plan.grid
    if out.suffix.lower() in GEOTIFF:
        done = _north_up(content, one, grid, out)
    else:
        done = _as_it_came(content, one, grid, out)
    cleared = () if one.reproducible else (_NOT_CLEARED,)
    return WrittenBasePlan(
        path=out,
        world_file=done.world_file,
        metres_per_pixel=done.metres_per_pixel,
        crs=grid.crs,
        basis=_basis(one),
        remarks=(*found.remarks, *done.remarks, *cleared),
    )


def _basis(one: Laid) -> str:
    if one.rmse_m is None:
        return "How well it lies is not known: no points that check one another placed it."
    missed = (
        ""
        if one.loo_rmse_m is None
        else f", and one left out is missed by {one.loo_rmse_m:.2f} m"
    )
    return (
        f"Its points agree within {one.rmse_m:.2f} m{missed}. Measure by it no better than"
        " that."
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Done:
    """What became of it."""

    world_file: Path | None = None
    metres_per_pixel: float | None = None
    remarks: tuple[str, ...] = ()


def _north_up(content: bytes, one: Laid, grid: Grid, out: Path) -> _Done:
    pyramid = scan_on_shelf(content, one.page)
    place = Place(east=grid.east, north=grid.north, epsg=grid.epsg)
    with written_whole(out) as beside:
        made = write_geotiff(
            pyramid, one.mapping, beside, place=place, copyright_line=one.acknowledgement
        )
    coarser = (
        f"It is large and was written coarser: {made.metres_per_pixel:.4g} m to the pixel."
    )
    return _Done(
        metres_per_pixel=made.metres_per_pixel, remarks=(coarser,) if made.coarser else ()
    )


def _as_it_came(content: bytes, one: Laid, grid: Grid, out: Path) -> _Done:
    facts = probe(content, one.page)
    _refuse_as_it_came(facts, one, out)
    a, b, c, d, e, f = one.mapping.straight
    east, north = grid.to_crs(c, f)
    lines = world_file((a, b, east, d, e, north), facts)
    world = out.with_name(world_file_names(out)[0])
    with written_whole(world) as lines_beside, written_whole(out) as beside:
        lines_beside.write_text(lines, encoding="ascii", newline="\n")
        beside.write_bytes(content)
    turned = "It is stored turned, and the world file is of its pixels as they are stored."
    return _Done(world_file=world, remarks=(turned,) if facts.turn > 1 else ())


def _refuse_as_it_came(facts: ScanFacts, one: Laid, out: Path) -> None:
    suffixes = _AS_THEY_ARE.get(facts.format, ())
    if out.suffix.lower() not in suffixes:
        known = " or ".join((*suffixes[:1], GEOTIFF[0]))
        raise CannotUse(
            f"“{one.name}” cannot be written as {out.name}; nothing was written. Let its name"
            f" end in {known}."
        )
    if not one.mapping.is_straight:
        raise CannotUse(
            f"The fit of “{one.name}” bends it, and a world file cannot say that; nothing was"
            f" written. Let its name end in {GEOTIFF[0]}."
        )
