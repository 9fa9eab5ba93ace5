"""Verbs that write base plans for other programs."""

from argparse import Namespace
from pathlib import Path

from plan_editor.cli.verb import Said
from plan_editor.commands.exporting_base_plans import WrittenBasePlan, write_base_plan_named


def base_write(asked: Namespace) -> Said:
    """Write a placed scan in the plan's coordinates."""
    made = write_base_plan_named(Path(asked.plan), asked.base, Path(asked.out))
    facts = {
        "file": str(made.path),
        "world_file": str(made.world_file) if made.world_file else None,
        "metres_per_pixel": made.metres_per_pixel,
        "crs": made.crs,
        "basis": made.basis,
        "remarks": list(made.remarks),
    }
    return Said(text="\n".join((_told(made), made.basis, *made.remarks)), facts=facts)


def _told(made: WrittenBasePlan) -> str:
    system = "the plan's local grid" if made.crs == "local" else made.crs
    if made.world_file is not None:
        return f"{made.path}: as it came, with {made.world_file.name}, in {system}."
    return f"{made.path}: north up, {made.metres_per_pixel:.4g} m to the pixel, in {system}."
