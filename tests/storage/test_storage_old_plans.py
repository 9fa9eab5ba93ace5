"""Files that older versions of the program wrote, kept as they were, open today."""

import gzip
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from plan_editor.edits.basic import Describe
from plan_editor.kinds import cordon, inspection, memorial
from plan_editor.plan.document import Document
from plan_editor.storage.loading import read_plan
from plan_editor.storage.plan_file import PlanFile
from plan_editor.storage.verifying import verify

OLD = Path(__file__).parent / "old_plans"


@pytest.fixture
def format_1(tmp_path: Path) -> Path:
    return kept(1, tmp_path)


@pytest.fixture
def format_2(tmp_path: Path) -> Path:
    return kept(2, tmp_path)


def kept(version: int, folder: Path) -> Path:
    path = folder / "plan.gpkg"
    path.write_bytes(gzip.decompress((OLD / f"format_{version}.gpkg.gz").read_bytes()))
    return path


def test_an_inspection_of_format_1_is_of_the_stone_that_it_was_of(format_1: Path) -> None:
    plan = read_plan(format_1)
    (stone,) = plan.of(memorial.KIND)
    (look,) = plan.of(inspection.KIND)
    assert (look.details.target, look.details.date) == (stone.id, "2025-05-02")
    assert verify(format_1).findings == ()


def test_the_log_of_format_1_can_be_taken_back_and_the_chain_goes_on(format_1: Path) -> None:
    with PlanFile.open(format_1) as file:
        (look,) = file.plan.of(inspection.KIND)
        told = [
            c.after.details.target
            for e in file.entries()
            for c in e.changes
            if c.after and c.id == look.id
        ]
        assert told == [look.details.target] * 2
        Document(file.plan, journal=file).apply(
            Describe(ids=(look.id,), details=(("inspector", "mason"),))
        )
        file.save()
    assert verify(format_1).findings == ()
    assert format_1.with_name("plan.gpkg.format-1.bak").exists()


def test_a_plan_of_format_1_without_inspections_opens(format_1: Path) -> None:
    with closing(sqlite3.connect(format_1)) as con, con:
        con.execute("DROP TABLE inspection")
        con.execute("DELETE FROM gpkg_contents WHERE table_name = 'inspection'")
    with PlanFile.open(format_1) as file:
        assert [c.before.kind.name for c in file.changed_elsewhere if c.before] == [
            "inspection"
        ]


def test_a_cordon_of_format_2_stands_round_the_stone_that_it_stood_round(
    format_2: Path,
) -> None:
    plan = read_plan(format_2)
    (stone,) = plan.of(memorial.KIND)
    (fence,) = plan.of(cordon.KIND)
    told = fence.details
    assert (told.target, told.since, told.notice) == (stone.id, "2026-03-07", "2026-03-08")
    assert verify(format_2).findings == ()


def test_the_log_of_format_2_tells_of_it_and_the_chain_goes_on(format_2: Path) -> None:
    with PlanFile.open(format_2) as file:
        (fence,) = file.plan.of(cordon.KIND)
        told = [
            c.after.details.target
            for e in file.entries()
            for c in e.changes
            if c.after and c.id == fence.id
        ]
        assert told == [fence.details.target] * 2
        Document(file.plan, journal=file).apply(
            Describe(ids=(fence.id,), details=(("barrier", "Hurdles"),))
        )
        file.save()
    assert verify(format_2).findings == ()
    assert format_2.with_name("plan.gpkg.format-2.bak").exists()
