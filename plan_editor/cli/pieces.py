"""Churchyards and sections of the ground as ``show`` tells them."""

from typing import Any

from plan_editor.cli.table import columns
from plan_editor.commands.ground_pieces import piece_lines
from plan_editor.ground.sections import Piece
from plan_editor.plan.plan import Plan


def piece_facts(pieces: tuple[Piece, ...]) -> list[dict[str, Any]]:
    """Return what lies in each of some pieces of the ground, for programs."""
    return [
        {
            "id": piece.item,
            "name": piece.name,
            "area_m2": round(piece.area_m2, 3),
            "graves": {str(state): count for state, count in piece.graves},
            "vaults": piece.vaults,
            "ashes_plots": piece.ashes_plots,
            "memorials": piece.memorials,
            "part_of": piece.part_of,
            "overlaps": list(piece.overlaps),
        }
        for piece in pieces
    ]


def piece_table(plan: Plan) -> str:
    """Return the churchyards and sections as a table; empty where there are none."""
    rows = [(p.name, p.graves, p.free, p.ashes) for p in piece_lines(plan)]
    return columns((("", "graves", "free", "ashes"), *rows)) if rows else ""
