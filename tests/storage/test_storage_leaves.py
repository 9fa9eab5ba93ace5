"""The chain of the log agrees after changes are forgotten, and with nothing else."""

import json
import sqlite3
from contextlib import closing
from hashlib import sha256
from pathlib import Path

import pytest
from keeping import graves, made

from plan_editor.storage.leaves import forgotten, is_forgotten, leaves, random_salt
from plan_editor.storage.verifying import verify

PAIR = [None, {"kind": "note", "shape": None, "columns": {"id": "1", "says": "é"}}]


def test_a_leaf_is_the_hash_of_salt_and_change() -> None:
    # the scheme of RFC 9901: a digest over a text that begins with the salt
    text = '[null,{"columns":{"id":"1","says":"é"},"kind":"note","shape":null}]'
    wanted = sha256(b"00ff" + text.encode()).hexdigest()
    assert leaves(json.dumps([PAIR]), '["00ff"]') == [wanted]


def test_what_is_forgotten_keeps_its_leaf_whatever_is_left_of_it() -> None:
    gone = forgotten(PAIR, "00ff")
    assert is_forgotten(gone)
    assert not is_forgotten("00ff")
    assert leaves("[[null,null]]", json.dumps([gone])) == leaves(json.dumps([PAIR]), '["00ff"]')
    assert forgotten([None, None], gone) == gone


def test_salts_have_128_bits_and_are_never_alike() -> None:
    salts = {random_salt() for _ in range(1000)}
    assert len(salts) == 1000
    assert {len(bytes.fromhex(s)) for s in salts} == {16}


@pytest.mark.parametrize("salts", ["[]", "3", "[1]", "nothing"])
def test_salts_that_do_not_fit_are_found(tmp_path: Path, salts: str) -> None:
    path = made(tmp_path / "plan.gpkg", graves(1))
    with closing(sqlite3.connect(path)) as con, con:
        con.execute("UPDATE history SET salts = ?", (salts,))
    assert any("Entry 1 of the history is not what it was" in f for f in verify(path).findings)


def test_another_salt_is_found(tmp_path: Path) -> None:
    path = made(tmp_path / "plan.gpkg", graves(1))
    with closing(sqlite3.connect(path)) as con, con:
        con.execute("UPDATE history SET salts = ?", (json.dumps([random_salt()]),))
    assert any("Entry 1 of the history is not what it was" in f for f in verify(path).findings)
