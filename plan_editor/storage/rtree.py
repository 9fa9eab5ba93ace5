"""The R-tree of a table: the statements of the standard, and how to know them again.

Source: OGC 12-128r19 (GeoPackage 1.4), annex F.3, which replaced the triggers update1 and
    update3
by update6, update7 and a changed update5.
"""

from collections.abc import Iterable
from functools import cache

_GOES = "(NEW.{c} ISNULL OR ST_IsEmpty(NEW.{c}))"
_STAYS = "(NEW.{c} NOTNULL AND NOT ST_IsEmpty(NEW.{c}))"
_WAS = "(OLD.{c} NOTNULL AND NOT ST_IsEmpty(OLD.{c}))"
_WAS_NOT = "(OLD.{c} ISNULL OR ST_IsEmpty(OLD.{c}))"
_BOX = "NEW.{i}, ST_MinX(NEW.{c}), ST_MaxX(NEW.{c}), ST_MinY(NEW.{c}), ST_MaxY(NEW.{c})"
_PUT = "INSERT OR REPLACE INTO {r} VALUES (" + _BOX + ");"
_SET = (
    "UPDATE {r} SET minx = ST_MinX(NEW.{c}), maxx = ST_MaxX(NEW.{c}), miny = ST_MinY(NEW.{c}),"
    " maxy = ST_MaxY(NEW.{c}) WHERE id = NEW.{i};"
)

_TRIGGERS = {
    "insert": "AFTER INSERT ON {t} WHEN (new.{c} NOT NULL AND NOT ST_IsEmpty(NEW.{c})) BEGIN "
    + _PUT
    + " END",
    "update2": "AFTER UPDATE OF {c} ON {t} WHEN OLD.{i} = NEW.{i} AND "
    + _GOES
    + " BEGIN DELETE FROM {r} WHERE id = OLD.{i}; END",
    "update4": "AFTER UPDATE ON {t} WHEN OLD.{i} != NEW.{i} AND "
    + _GOES
    + " BEGIN DELETE FROM {r} WHERE id IN (OLD.{i}, NEW.{i}); END",
    "update5": "AFTER UPDATE ON {t} WHEN OLD.{i} != NEW.{i} AND "
    + _STAYS
    + " BEGIN DELETE FROM {r} WHERE id = OLD.{i}; "
    + _PUT
    + " END",
    "update6": "AFTER UPDATE OF {c} ON {t} WHEN OLD.{i} = NEW.{i} AND "
    + _STAYS
    + " AND "
    + _WAS
    + " BEGIN "
    + _SET
    + " END",
    "update7": "AFTER UPDATE OF {c} ON {t} WHEN OLD.{i} = NEW.{i} AND "
    + _STAYS
    + " AND "
    + _WAS_NOT
    + " BEGIN INSERT INTO {r} VALUES ("
    + _BOX
    + "); END",
    "delete": "AFTER DELETE ON {t} WHEN old.{c} NOT NULL BEGIN"
    " DELETE FROM {r} WHERE id = OLD.{i}; END",
}
_OLDER = {
    "update1": "AFTER UPDATE OF {c} ON {t} WHEN OLD.{i} = NEW.{i} AND "
    + _STAYS
    + " BEGIN "
    + _PUT
    + " END",
    "update3": "AFTER UPDATE ON {t} WHEN OLD.{i} != NEW.{i} AND "
    + _STAYS
    + " BEGIN DELETE FROM {r} WHERE id = OLD.{i}; "
    + _PUT
    + " END",
}
"""Of GeoPackage 1.2 and 1.3; never written, but other programs' tables may have them."""

_COUNTED = {
    "trigger_insert_feature_count_{}": "AFTER INSERT ON {t} BEGIN UPDATE gpkg_ogr_contents"
    " SET feature_count = feature_count + 1 WHERE lower(table_name) = lower({n}); END",
    "trigger_delete_feature_count_{}": "AFTER DELETE ON {t} BEGIN UPDATE gpkg_ogr_contents"
    " SET feature_count = feature_count - 1 WHERE lower(table_name) = lower({n}); END",
}
"""What GDAL, the open-source library, adds to tables of its own to count their rows."""


def name(table: str, column: str) -> str:
    """Return the name of the R-tree of a table."""
    return f"rtree_{table}_{column}"


def statements(table: str, column: str, key: str = "fid") -> Iterable[str]:
    """Return what makes the R-tree of a table and keeps it in step."""
    yield f"CREATE VIRTUAL TABLE {_virtual(table, column)}"
    for which, text in _TRIGGERS.items():
        yield _trigger(which, text, table, column, key)


def refilling(table: str, column: str, key: str = "fid") -> Iterable[str]:
    """Return what makes the R-tree of a table anew from its rows."""
    words = {"i": key, "c": column, "r": name(table, column), "t": table}
    quoted = {short: _quoted(word) for short, word in words.items()}
    yield "DELETE FROM {r}".format(**quoted)
    box = _BOX.replace("NEW.", "")
    yield (
        "INSERT INTO {r} SELECT " + box + " FROM {t} WHERE {c} NOTNULL AND NOT ST_IsEmpty({c})"
    ).format(**quoted)


@cache
def exactly(table: str, column: str) -> frozenset[str]:
    """Return the statements as this program writes them, to know them again at a glance."""
    return frozenset(statements(table, column))


def is_index(table: str, column: str, sql: str) -> bool:
    """Return whether a statement makes the R-tree of that table and nothing else."""
    return plain(sql) == plain(f"CREATE VIRTUAL TABLE {_virtual(table, column)}")


def known_triggers(table: str, column: str, keys: Iterable[str]) -> frozenset[str]:
    """Return the triggers, as ``plain`` text, that a table with an R-tree may have."""
    texts = (_TRIGGERS | _OLDER).items()
    spatial = (plain(_trigger(w, t, table, column, k)) for k in keys for w, t in texts)
    return frozenset(spatial) | known_counters(table)


def known_counters(table: str) -> frozenset[str]:
    """Return the triggers, as ``plain`` text, that a table without R-tree may have."""
    quoted = "'" + table.replace("'", "''") + "'"
    return frozenset(
        plain(f"CREATE TRIGGER {head.format(table)} {text.format(t=table, n=quoted)}")
        for head, text in _COUNTED.items()
    )


def plain(sql: str) -> str:
    """Return a statement without blanks, quotation marks and capitals."""
    return "".join(sql.replace('"', "").split()).casefold().replace(";end", "end")


def _virtual(table: str, column: str) -> str:
    return f"{_quoted(name(table, column))} USING rtree(id, minx, maxx, miny, maxy)"


def _trigger(which: str, text: str, table: str, column: str, key: str) -> str:
    index = name(table, column)
    body = text.format(t=_quoted(table), c=_quoted(column), i=_quoted(key), r=_quoted(index))
    return f"CREATE TRIGGER {_quoted(f'{index}_{which}')} {body}"


def _quoted(word: str) -> str:
    return '"' + word.replace('"', '""') + '"'
