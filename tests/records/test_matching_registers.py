"""On invented registers that were not used in tuning, what is accepted unseen is right.

Seeds 1 to 5 were used in tuning. The whole registers of 5,000 entries are matched under
``HYPOTHESIS_PROFILE=thorough``.
"""

import os

import pytest
from registers import register

from plan_editor.records.matching import proposals, sure

THOROUGH = os.environ.get("HYPOTHESIS_PROFILE") == "thorough"
SEEDS, ENTRIES = ((101, 102, 103, 104, 105), 5000) if THOROUGH else ((101,), 500)


@pytest.mark.parametrize("seed", SEEDS)
def test_of_a_hundred_accepted_unseen_ninety_eight_are_right(
    seed: int, capsys: pytest.CaptureFixture[str]
) -> None:
    made = register(seed, ENTRIES)
    accepted = sure(proposals(made.plan))
    right = sum(made.truth[p.entry] == p.grave for p in accepted)
    there = sum(grave is not None for grave in made.truth.values())
    precision, recall = right / len(accepted), right / there
    if THOROUGH:  # the figures of a release
        with capsys.disabled():
            print(f"\nseed {seed}: precision {precision:.4f}, recall {recall:.4f}")  # noqa: T201
    assert precision >= 0.98
    assert recall >= 0.5
