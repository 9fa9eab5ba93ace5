"""How long it takes to find a grave among 20,000 entries, beside one bare pass over names."""

import random
from time import perf_counter

import pytest
from pytest_benchmark.fixture import BenchmarkFixture
from rapidfuzz import fuzz, process

from plan_editor.kinds import burial
from plan_editor.kinds.burial import BurialDetails
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of
from plan_editor.records.looking_up import ready

pytestmark = pytest.mark.bench

ENTRIES = 20_000
BEGINNINGS = (
    "Ack",
    "Ibbot",
    "Green",
    "Shackle",
    "Tatter",
    "Old",
    "Priest",
    "Wads",
    "Crow",
    "Earn",
)
MIDDLES = ("er", "le", "a", "in", "on", "", "ing", "ber", "el", "ar")
ENDINGS = ("son", "wood", "ton", "sall", "royd", "ley", "worth", "ther", "shaw", "by")
FORENAMES = ("John", "Mary", "William", "Hannah", "Thomas", "Ada", "Joseph", "Ellen", "George")


def test_a_misspelt_name_among_twenty_thousand(
    benchmark: BenchmarkFixture, capsys: pytest.CaptureFixture[str]
) -> None:
    chance = random.Random(1)  # noqa: S311  # a game, not a secret
    entries = [
        BurialDetails(
            surname="".join(chance.choice(part) for part in (BEGINNINGS, MIDDLES, ENDINGS)),
            forenames=chance.choice(FORENAMES),
            buried=str(1813 + n * 200 // ENTRIES),
        )
        for n in range(ENTRIES)
    ]
    names = [f"{e.forenames} {e.surname} {e.buried}" for e in entries]
    start = perf_counter()
    numbered = enumerate(entries, 1)
    register = ready(
        plan_of([new_item(burial.KIND, details=e, number=str(n)) for n, e in numbered])
    )
    made_ready = perf_counter() - start
    typed = "hanah greenelworth"
    bare = []
    for _ in range(10):
        start = perf_counter()
        process.extract(typed, names, scorer=fuzz.ratio, limit=50)
        bare.append(perf_counter() - start)
    found = benchmark.pedantic(register.find, args=(typed,), rounds=20, iterations=1)
    assert "Hannah Greenelworth" in found[0].text
    took = benchmark.stats.stats.min
    with capsys.disabled():
        print(  # noqa: T201
            f"\n{ENTRIES} entries: found in {took * 1000:.1f} ms; one bare pass"
            f" {min(bare) * 1000:.1f} ms; ratio {took / min(bare):.2f};"
            f" made ready in {made_ready:.2f} s"
        )
