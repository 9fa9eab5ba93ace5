"""How long the plan check takes on 3,000 graves, beside the bare index asked what crosses."""

from time import perf_counter
from typing import Any

import numpy as np
import pytest
import shapely
from pytest_benchmark.fixture import BenchmarkFixture

from plan_editor.checking.rule import Finding, findings, rules
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import boundary, grass, grave, memorial, section
from plan_editor.kinds.memorial import MemorialDetails
from plan_editor.plan.item import Basis, Item, Method, new_item
from plan_editor.plan.plan import Plan, plan_of

pytestmark = pytest.mark.bench

ROWS, EACH = 60, 50
TRACED = Basis(method=Method.TRACED, source="Plan of 1962", sd_m=0.1)


def test_three_thousand_graves(
    benchmark: BenchmarkFixture, capsys: pytest.CaptureFixture[str]
) -> None:
    plan = churchyard()
    shapes = np.array([g.shape for g in plan.of(grave.KIND)], dtype=object)
    start = perf_counter()
    shapely.STRtree(shapes).query(shapes, "intersects")
    bare = perf_counter() - start
    found = benchmark.pedantic(check, args=(plan,), rounds=3, warmup_rounds=1)
    whole = benchmark.stats.stats.min
    with capsys.disabled():
        print(  # noqa: T201  # it is the result
            f"\n{len(plan.items):,} things, of them {len(shapes):,} graves, checked in"
            f" {whole * 1e3:.0f} ms, {whole / bare:.0f} times the bare query of"
            f" {bare * 1e3:.0f} ms; {len(found)} found"
        )
        told = ", ".join(f"{name} {ms:.0f} ms" for name, ms in each(plan))
        print(told)  # noqa: T201
    assert found


def check(plan: Plan) -> list[Finding]:
    return list(findings(plan))


def each(plan: Plan) -> list[tuple[str, float]]:
    told = []
    for rule in rules():
        start = perf_counter()
        list(rule.find(plan))
        told.append((rule.name, (perf_counter() - start) * 1e3))
    return sorted(told, key=lambda t: -t[1])[:6]


def churchyard() -> Plan:
    """Return rows of graves, each with its stone, drawn by a hand that shakes by 5 cm."""
    shake = np.random.default_rng(7).normal(0.0, 0.05, (ROWS, EACH, 2))
    items: list[Item[Any]] = [new_item(boundary.KIND, shapely.box(-5, -5, 190, 80))]
    for row in range(ROWS):
        items.append(strip(section.KIND, row))
        items.append(strip(grass.KIND, row))
        for n in range(EACH):
            e, s = (shake[row, n] + (row * 3.0, n * 1.5)).tolist()
            place = Rectangle(east=e, north=s, width=1.22, length=2.74)
            lies = new_item(grave.KIND, place, number=f"{row}/{n}", basis=TRACED)
            stands = Rectangle(east=e, north=s + 0.15, width=0.9, length=0.15)
            told = MemorialDetails(grave=lies.id)
            items += [lies, new_item(memorial.KIND, stands, details=told, basis=TRACED)]
    items.append(new_item(grave.KIND, Rectangle(east=0, north=0.6, width=1.22, length=2.74)))
    return plan_of(items)


def strip(kind: Any, row: int) -> Item[Any]:
    return new_item(kind, shapely.box(row * 3.0, -1.0, row * 3.0 + 3.0, EACH * 1.5))
