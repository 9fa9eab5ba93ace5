"""How long adjusting a large field book takes, beside the bare sparse solve of its matrix."""

from collections.abc import Callable
from statistics import median
from time import perf_counter
from typing import Any

import numpy as np
import pytest
import scipy.sparse as sp
from pytest_benchmark.fixture import BenchmarkFixture
from scipy.sparse.linalg import splu, spsolve
from simulated_books import SimulatedBook, cemetery

from plan_editor.survey.adjustment.equations import rows_of
from plan_editor.survey.adjustment.network import adjust
from plan_editor.survey.adjustment.normal import Network, network_of, settled
from plan_editor.survey.adjustment.worlds import started

pytestmark = pytest.mark.bench

ROUNDS = 5
SIZES = (250, 1000, 4000)


def seconds(work: Callable[[], Any]) -> float:
    """Return how long it takes, in the middle of a few times."""
    times = []
    for _ in range(ROUNDS):
        start = perf_counter()
        work()
        times.append(perf_counter() - start)
    return median(times)


def start_of(book: SimulatedBook) -> tuple[Any, np.ndarray]:
    """Return a book as rows, and about where its points are."""
    places = started(book.stations, book.observed, (), 1.0).places
    names = sorted(places)
    number = {name: n for n, name in enumerate(names)}
    rows = rows_of(book.stations, book.observed, number, 1.0)
    return rows, np.array([(places[name].real, places[name].imag) for name in names])


def matrix_of(network: Network, at: np.ndarray) -> tuple[sp.csc_matrix, np.ndarray]:
    """Return the normal equations of a network, for scipy."""
    rows = network.rows
    over, change = rows.linear(at)
    used = rows.places >= 0
    row, slot = np.nonzero(used)
    columns = 2 * rows.places[row, slot][:, None] + [0, 1]
    design = sp.csr_matrix(
        (change[row, slot].ravel(), (np.repeat(row, 2), columns.ravel())),
        shape=(len(over), 2 * network.unknown),
    )
    weights = 1.0 / rows.sd**2
    return (design.T @ sp.diags(weights) @ design).tocsc(), design.T @ (weights * over)


def coordinates(rows: Any, at: np.ndarray) -> tuple[Network, Any]:
    network = network_of(rows, at, unknown=len(at), swings=0)
    return network, settled(network, at, 1.0 / rows.sd**2)


def all_sums(rows: Any, at: np.ndarray) -> None:
    """Work out coordinates, ellipses and redundancies, all in numbers."""
    network, found = coordinates(rows, at)
    inverse = found.factor.inverse()
    network.variances(found.change, inverse)
    network.covariances(inverse)


def test_2000_points_of_10_000_measurements(
    benchmark: BenchmarkFixture, capsys: pytest.CaptureFixture[str]
) -> None:
    book = cemetery(2000)
    rows, at = start_of(book)
    matrix, right = matrix_of(network_of(rows, at, unknown=len(at), swings=0), at)
    bare = seconds(lambda: spsolve(matrix, right))
    best = seconds(
        lambda: splu(
            matrix,
            permc_spec="MMD_AT_PLUS_A",
            diag_pivot_thresh=0.0,
            options={"SymmetricMode": True},
        ).solve(right)
    )
    ours = {
        "coordinates": seconds(lambda: coordinates(rows, at)),
        "with ellipses and redundancies": seconds(lambda: all_sums(rows, at)),
        "the whole adjust(), from the book to its words": seconds(
            lambda: adjust(book.stations, book.observed)
        ),
    }
    with capsys.disabled():
        print(  # noqa: T201  # it is the result
            f"\n{len(at)} places, {len(book.observed)} measurements; "
            f"spsolve {bare * 1e3:.0f} ms, splu ordered for symmetry {best * 1e3:.0f} ms"
        )
        for what, took in ours.items():
            ratios = f"{took / bare:.2f} of the one, {took / best:.1f} of the other"
            print(f"  {what}: {took * 1e3:.0f} ms, ratio {ratios}")  # noqa: T201
    benchmark.pedantic(lambda: all_sums(rows, at), rounds=ROUNDS)


def test_growth_with_size(capsys: pytest.CaptureFixture[str]) -> None:
    lines = []
    for count in SIZES:
        book = cemetery(count)
        rows, at = start_of(book)
        sums = seconds(lambda rows=rows, at=at: all_sums(rows, at))
        whole = seconds(lambda book=book: adjust(book.stations, book.observed))
        lines.append(f"  {count} points: sums {sums * 1e3:.1f} ms, whole {whole * 1e3:.0f} ms")
    with capsys.disabled():
        print("\nadjusting books of growing size", *lines, sep="\n")  # noqa: T201
