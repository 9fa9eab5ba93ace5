"""The verb that places a base plan by points: fitted, then one edit, saved whole."""

from argparse import Namespace
from math import hypot
from pathlib import Path
from typing import Any

from plan_editor.cli.changing import AUTHOR, refuse_if_changed_elsewhere
from plan_editor.cli.table import columns
from plan_editor.cli.verb import Said
from plan_editor.commands.fitting import Fitted, fitted, placing, read_control
from plan_editor.commands.making import KeptIn
from plan_editor.commands.reading import read
from plan_editor.plan.document import Document
from plan_editor.plan.media import Kept
from plan_editor.plan.plan import Plan
from plan_editor.storage.plan_file import PlanFile
from plan_editor.survey.fits.fit_words import comparison, in_words
from plan_editor.survey.fits.fitting import Fit
from plan_editor.survey.fits.models import Model
from plan_editor.survey.grids.grid import Grid

CAUTION = "What is traced on it is no better than this: check by tape before anything is dug."


def fit(asked: Namespace) -> Said:
    """Place a base plan by points, or say how it would lie."""
    path = Path(asked.plan)
    if asked.dry_run:
        found = read(path)
        told = _fitted(asked, found.plan, KeptIn(path))
        return _said(asked, found.plan.grid, told, ("Nothing was changed.", *found.remarks))
    with PlanFile.open(path) as file:
        refuse_if_changed_elsewhere(file)
        document = Document(file.plan, journal=file, author=AUTHOR)
        told = _fitted(asked, document.plan, file)
        edit = placing(document.plan, told.item, told.fit, along=asked.move_traced)
        entry = document.apply(edit)
        remarks = file.save()
    moved = 0 if entry is None else len(entry.changes) - 1
    done = _done(told, moved)
    return _said(asked, file.plan.grid, told, (done, *remarks), moved=moved)


def _fitted(asked: Namespace, plan: Plan, media: Kept) -> Fitted:
    model = None if asked.model == "auto" else Model(asked.model)
    control = read_control(Path(asked.marks), plan.grid)
    return fitted(plan, media, asked.base, control, model)


def _done(told: Fitted, moved: int) -> str:
    if moved:
        things = "1 thing that was traced on it" if moved == 1 else f"{moved} things"
        return f"“{told.name}” was placed again, and {things} moved with it."
    return f"“{told.name}” was placed."


def _said(
    asked: Namespace, grid: Grid, told: Fitted, remarks: tuple[str, ...], moved: int = 0
) -> Said:
    made = told.fit
    lines = [
        f"{told.name}: {made.model} fit to {len(made.control)} points.",
        "",
        columns((("mark", "E", "N", "off m", "left out m"), *_rows(grid, made))),
        "",
        *in_words(made),
        comparison(told.fits, made) if asked.model == "auto" else "",
        CAUTION,
        *remarks,
    ]
    facts = _facts(grid, told) | {"moved": moved, "dry_run": asked.dry_run}
    facts["remarks"] = list(remarks)
    return Said(text="\n".join(lines), facts=facts, code=0 if made.blunder is None else 1)


def _rows(grid: Grid, made: Fit) -> list[tuple[str, ...]]:
    rows: list[tuple[str, ...]] = []
    for n, control in enumerate(made.control):
        east, north = grid.to_crs(control.east, control.north)
        left_out = "" if made.left_out is None else f"{hypot(*made.left_out[n]):.3f}"
        off = f"{hypot(*made.residuals[n]):.3f}"
        rows.append((control.name or str(n + 1), f"{east:.3f}", f"{north:.3f}", off, left_out))
    return rows


def _facts(grid: Grid, told: Fitted) -> dict[str, Any]:
    made = told.fit
    return {
        "base": told.name,
        "model": made.model.value,
        "recommended": None if told.advised is None else told.advised.value,
        "parameters": list(_in_crs(grid, made)),
        "bend": list(_bend_in_crs(grid, made)),
        "crs": grid.crs,
        "scale": made.scale,
        "rotation_deg": made.rotation_deg,
        "rmse_m": made.rmse,
        "rmse_pixels": made.rmse_paper,
        "rmse_mm_on_paper": made.rmse_mm,
        "loo_rmse_m": made.loo_rmse,
        "models": [
            {"model": f.model.value, "rmse_m": f.rmse, "loo_rmse_m": f.loo_rmse}
            for f in told.fits
        ],
        "residuals": [_residual(grid, made, n) for n in range(len(made.control))],
        "blunder": _blunder(made),
        "words": list(in_words(made)),
        "caution": CAUTION,
    }


def _in_crs(grid: Grid, made: Fit) -> tuple[float, ...]:
    a, b, c, d, e, f = made.straight
    east, north = grid.to_crs(c, f)
    return a, b, east, d, e, north


def _bend_in_crs(grid: Grid, made: Fit) -> tuple[float, ...]:
    """Return what bends it: the eight numbers of a projective fit lead to the grid's system."""
    if made.model is not Model.PROJECTIVE:
        return made.bend
    a, b, c, d, e, f, g, h = made.bend
    east, north = grid.east, grid.north
    return (
        *(a + east * g, b + east * h, c + east),
        *(d + north * g, e + north * h, f + north),
        *(g, h),
    )


def _residual(grid: Grid, made: Fit, n: int) -> dict[str, Any]:
    control, (off_east, off_north) = made.control[n], made.residuals[n]
    east, north = grid.to_crs(control.east, control.north)
    return {
        "mark": control.name,
        "px": control.x,
        "py": control.y,
        "E": round(east, 4),
        "N": round(north, 4),
        "sd": control.sd,
        "dE": off_east,
        "dN": off_north,
        "m": hypot(off_east, off_north),
        "left_out_m": None if made.left_out is None else hypot(*made.left_out[n]),
    }


def _blunder(made: Fit) -> dict[str, Any] | None:
    if made.blunder is None:
        return None
    without = made.blunder.without
    return {
        "mark": made.control[made.blunder.index].name,
        "off_m": hypot(*made.blunder.off),
        "rmse_m_without": without.rmse,
        "loo_rmse_m_without": without.loo_rmse,
        "parameters_without": list(without.straight),
    }
