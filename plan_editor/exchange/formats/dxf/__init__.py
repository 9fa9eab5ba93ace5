"""DXF: the plan to a surveyor or architect, and their drawings under the ground."""

from pathlib import Path

from plan_editor.declared import late
from plan_editor.exchange.format import Drawing, Format, Report
from plan_editor.plan.plan import Plan


def _write(plan: Plan, path: Path) -> Report:
    raise NotImplementedError(plan, path)


def _read_drawing(content: bytes) -> Drawing:
    raise NotImplementedError(content)


FORMAT = Format(
    name="dxf",
    title="Drawing (DXF)",
    suffixes=(".dxf",),
    write=late(f"{__name__}.writing", "write", _write),
    read_drawing=late(f"{__name__}.reading", "read_drawing", _read_drawing),
)
