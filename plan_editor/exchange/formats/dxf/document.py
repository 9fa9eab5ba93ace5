"""A plan as a drawing: the ground in metres and true coordinates, and a paper sheet."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from ezdxf.document import Drawing as Document
from ezdxf.filemanagement import new

from plan_editor.drawing.compose import Group, grouped
from plan_editor.exchange.formats.dxf.blocks import Told, draw_blocks, is_block
from plan_editor.exchange.formats.dxf.board import APPLICATION, Board
from plan_editor.exchange.formats.dxf.numbers import FONTS, Number, draw_numbers, numbers_of
from plan_editor.exchange.formats.dxf.paper import paper_sheet
from plan_editor.exchange.formats.dxf.place import say_where
from plan_editor.exchange.formats.dxf.shapes import draw_areas, draw_lines, draw_spread
from plan_editor.exchange.formats.dxf.sheet import draw_sheet
from plan_editor.exchange.formats.dxf.signs import draw_signs
from plan_editor.exchange.formats.dxf.words import in_one_line
from plan_editor.exchange.formats.dxf.zones import draw_zones
from plan_editor.ground.clearance import Zone, zones
from plan_editor.ground.rules import shipped_rules
from plan_editor.plan.item import BASE_PLAN, ItemId
from plan_editor.plan.kind import Form
from plan_editor.plan.plan import Plan
from plan_editor.records.safety import standings

VERSION = "R2010"
"""The oldest that has true colours, any letter, and a place on the earth."""

_METRES, _METRIC, _DECIMAL = 6, 1, 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """A drawing, and what is on it: groups of items that look alike, and zones."""

    document: Document
    groups: tuple[Group, ...]
    zones: tuple[Zone, ...]


def drawing_of(plan: Plan, issued: str) -> Made:
    """Return the drawing of a plan: all that has a place but the base plans.

    Args:
        plan: the plan.
        issued: ISO date in the title block of its paper sheet.
    """
    groups = grouped(i for i in plan.items.values() if i.kind.name != BASE_PLAN)
    safety = standings(plan, on=issued)
    clear = zones(plan, [s.item.id for s in safety if s.unsafe])
    told = _told(plan, {s.item.id: _words(s) for s in safety})
    sheet = paper_sheet(plan)
    document = _empty(plan, sheet.viewport.scale)
    say_where(document, plan, (sheet.viewport.east, sheet.viewport.north))
    board = Board(
        document=document,
        space=document.modelspace(),
        grid=plan.grid,
        viewport=sheet.viewport,
    )
    draw_zones(board, clear)
    numbers = numbers_of(board, groups)
    for group in groups:
        _draw(board, group, told, numbers)
    rules = dict.fromkeys(zone.rule for zone in clear)
    draw_sheet(document, plan, sheet, issued=issued, rules=tuple(rules))
    _look_at(board)
    return Made(document=document, groups=groups, zones=clear)


def _empty(plan: Plan, scale: float) -> Document:
    document = new(VERSION, units=_METRES)
    document.header["$MEASUREMENT"] = _METRIC
    document.header["$LUNITS"] = _DECIMAL
    document.header["$LTSCALE"] = scale / 1000.0  # line types are in millimetres of the paper
    document.header["$PSLTSCALE"] = 0
    document.header.custom_vars.append("Plan", in_one_line(plan.name))
    document.appids.add(APPLICATION)
    for name, font in FONTS.items():
        document.styles.add(name, font=font)
    return document


def _draw(board: Board, group: Group, told: Told, numbers: Mapping[ItemId, Number]) -> None:
    blocks = [item for item in group.items if is_block(item)]
    rest = [item for item in group.items if not is_block(item)]
    draw_areas(board, group, [i for i in rest if i.form is not Form.LINE])
    draw_lines(board, group, [i for i in rest if i.form is Form.LINE])
    draw_spread(board, group, [i for i in blocks if i.form is Form.POINT])
    draw_blocks(board, group, blocks, told, numbers)
    draw_signs(board, group)
    draw_numbers(board, group, rest, numbers)


def _told(plan: Plan, safety: Mapping[ItemId, Mapping[str, str]]) -> Told:
    inspected = {rule.applies_to for rule in shipped_rules()}
    return Told(
        tags=dict.fromkeys(inspected, ("SAFE", "INSPECTED")),
        words=safety,
        names={item.id: item.called() for item in plan.items.values()},
    )


def _words(standing: Any) -> dict[str, str]:
    if standing.latest is None:
        return {"SAFE": "not inspected"}
    return {
        "SAFE": "no" if standing.unsafe else "when inspected",
        "INSPECTED": standing.latest.details.date,
    }


def _look_at(board: Board) -> None:
    """Let a program that opens the drawing show the whole of it."""
    view = board.viewport
    e0, n0, e1, n1 = view.ground
    low, high = board.grid.to_crs(e0, n0), board.grid.to_crs(e1, n1)
    board.document.header["$EXTMIN"] = (*low, 0.0)
    board.document.header["$EXTMAX"] = (*high, 0.0)
    middle = board.grid.to_crs(view.east, view.north)
    board.document.set_modelspace_vport(height=n1 - n0, center=middle)
