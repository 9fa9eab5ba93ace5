"""Ground to keep off by the rules of clearance: outlines and hatches, a layer a purpose."""

from dataclasses import replace

import shapely

from plan_editor.drawing.zones import ZONE
from plan_editor.exchange.formats.dxf.board import Board, mark_with
from plan_editor.exchange.formats.dxf.hatches import add_hatch
from plan_editor.exchange.formats.dxf.layers import Presentation, layer
from plan_editor.ground.clearance import Zone
from plan_editor.ground.rules import Purpose
from plan_editor.plan.look import Hatch, Pen

_PEN = ZONE.pen or Pen()
_HATCH = ZONE.hatch or Hatch()
_TURNS = {Purpose.PEOPLE: 45.0, Purpose.MACHINE: 135.0}  # so that both can be seen at once


def draw_zones(board: Board, zones: tuple[Zone, ...]) -> None:
    """Draw zones, each marked with its rule, its area, and the stones it lies round."""
    for zone in zones:
        purpose = zone.rule.purpose
        name = f"Z-CLR{purpose.value[:3].upper()}E-"
        words = f"Keep off, {purpose.value}: {zone.rule.title}"
        outline = layer(board.document, name, Presentation.ELEMENT, words, _PEN)
        filled = layer(board.document, name, Presentation.HATCHING, words, _PEN)
        for ring in shapely.get_rings(zone.shape):
            points = board.true(shapely.get_coordinates(ring)[:-1])
            line = board.space.add_lwpolyline(
                points.tolist(), format="xy", close=True, dxfattribs={"layer": outline}
            )
            mark_with(line, _told(zone))
        hatch = replace(_HATCH, angle_deg=_TURNS[purpose])
        mark_with(add_hatch(board, zone.shape, hatch, filled), _told(zone))


def _told(zone: Zone) -> tuple[str, ...]:
    stones = tuple(kept.item.id for kept in zone.kept_from)
    return ("clearance", zone.rule.name, f"{zone.area_m2:.2f} m2", *stones[:200])
