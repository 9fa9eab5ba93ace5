"""The drawing of the mowing map."""

import numpy as np

from plan_editor.drawing.areas import area_ink
from plan_editor.drawing.compose import compose as composed
from plan_editor.drawing.compose import grouped
from plan_editor.drawing.ink import Ink
from plan_editor.drawing.labels import place
from plan_editor.drawing.viewport import Viewport
from plan_editor.drawing.zones import ringed, zone_ground, zone_ink
from plan_editor.kinds import grass
from plan_editor.printing.pale_map import clear_of, framed, named, no_room, quiet, round_stones
from plan_editor.printing.plan_page import Drawn
from plan_editor.printing.sheets.mowing.samples import FRESH
from plan_editor.printing.sheets.mowing.told import Told
from plan_editor.printing.sheets.mowing.written import warned
from plan_editor.printing.usual import underlays


def drawn(told: Told, viewport: Viewport) -> Drawn:
    """Return the map: everything pale but what it is about."""
    marked = {i.id for i in told.marked}
    others = grouped(i for i in told.items if i.id not in marked)
    beneath = [g for g in others if g.kind.order <= grass.KIND.order]
    above = [g for g in others if g.kind.order > grass.KIND.order]
    stones = tuple(k.footprint for z in told.zones for k in z.kept_from)
    shapes = [z.shape for z in told.zones]
    warnings = place(warned(told, viewport), round_stones(stones, viewport), viewport.frame)
    kept_clear = clear_of(others, warnings.taken, viewport)
    names = place(named(others, viewport), kept_clear, viewport.frame)
    over = (*ringed(stones, viewport), *names.ink, *warnings.ink)
    ink: tuple[Ink, ...] = (
        *underlays(told.backdrops, viewport),
        *composed(beneath, viewport, quiet),
        *composed(grouped(told.marked), viewport),
        framed(zone_ground(shapes, viewport), viewport),
        *composed(above, viewport, quiet),
        framed(zone_ink(shapes, viewport), viewport),
        framed(_fresh(told, viewport), viewport),
        framed(over, viewport),
    )
    remarks = (
        *no_room("numbers and days", warnings.left_out, "What they belong to is drawn there."),
        *no_room("names", names.left_out),
    )
    return Drawn(ink=ink, remarks=remarks)


def _fresh(told: Told, viewport: Viewport) -> tuple[Ink, ...]:
    if not told.fresh:
        return ()
    shapes = viewport.shapes([g.shape for g in told.fresh])
    return area_ink(shapes, FRESH, np.array([], dtype=object))
