"""How long it takes to find the graves of the sample's scan, beside one blur of its picture."""

from pathlib import Path
from time import perf_counter

import numpy as np
import pytest
from pytest_benchmark.fixture import BenchmarkFixture
from scipy.ndimage import gaussian_filter

from plan_editor.commands.backdrops import scan_on_shelf
from plan_editor.commands.making import KeptIn
from plan_editor.commands.proposing import scan_named
from plan_editor.ground.base_plans import laid
from plan_editor.ground.proposals import learnt
from plan_editor.resources import sample
from plan_editor.scans.finding import rectangles_in
from plan_editor.scans.resampling import extent_of, resample
from plan_editor.storage.loading import read_plan

pytestmark = pytest.mark.bench


def test_the_whole_sample_scan(
    benchmark: BenchmarkFixture, capsys: pytest.CaptureFixture[str]
) -> None:
    path = Path(sample("harrowmere.gpkg"))
    plan = read_plan(path)
    scan = scan_named(plan, "Plan of 1962")
    (one,) = (b for b in laid(plan) if b.item == scan)
    pyramid = scan_on_shelf(KeptIn(path).read(one.digest), one.page)
    sought = learnt(plan, scan)
    picture = resample(pyramid, one.mapping, extent_of(pyramid, one.mapping), 0.042)
    grey = picture.mean(axis=2).astype(np.float32)
    start = perf_counter()
    gaussian_filter(grey, 2.0)
    bare = perf_counter() - start
    found = benchmark.pedantic(
        rectangles_in, args=(pyramid, one.mapping, sought), rounds=2, iterations=1
    )
    assert found is not None
    assert len(found) > 300
    took = benchmark.stats.stats.min
    with capsys.disabled():
        print(  # noqa: T201
            f"\n{grey.shape[1]} by {grey.shape[0]} pixels: {took:.1f} s;"
            f" one blur of them {bare:.2f} s; ratio {took / bare:.0f}"
        )
