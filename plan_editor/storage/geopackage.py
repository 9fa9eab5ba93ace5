"""The tables that every GeoPackage has.

Source: OGC 12-128r19 (GeoPackage 1.4), annex C and clause 2.3.
"""

from collections.abc import Iterable

from plan_editor.storage import rtree
from plan_editor.storage.connection import Connection
from plan_editor.survey.grids.crs import described

APPLICATION_ID = 0x47504B47
"""``GPKG``, at byte 68 of the file."""

VERSION = 10400
"""GeoPackage 1.4.0, at byte 60 of the file."""

CORE = ("gpkg_spatial_ref_sys", "gpkg_contents", "gpkg_geometry_columns", "gpkg_extensions")

_SQL = (
    """CREATE TABLE gpkg_spatial_ref_sys (
  srs_name TEXT NOT NULL, srs_id INTEGER PRIMARY KEY NOT NULL, organization TEXT NOT NULL,
  organization_coordsys_id INTEGER NOT NULL, definition TEXT NOT NULL, description TEXT)""",
    """CREATE TABLE gpkg_contents (
  table_name TEXT NOT NULL PRIMARY KEY, data_type TEXT NOT NULL, identifier TEXT UNIQUE,
  description TEXT DEFAULT '',
  last_change DATETIME NOT NULL DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ','now')),
  min_x DOUBLE, min_y DOUBLE, max_x DOUBLE, max_y DOUBLE, srs_id INTEGER,
  CONSTRAINT fk_gc_r_srs_id FOREIGN KEY (srs_id) REFERENCES gpkg_spatial_ref_sys(srs_id))""",
    """CREATE TABLE gpkg_geometry_columns (
  table_name TEXT NOT NULL, column_name TEXT NOT NULL, geometry_type_name TEXT NOT NULL,
  srs_id INTEGER NOT NULL, z TINYINT NOT NULL, m TINYINT NOT NULL,
  CONSTRAINT pk_geom_cols PRIMARY KEY (table_name, column_name),
  CONSTRAINT uk_gc_table_name UNIQUE (table_name),
  CONSTRAINT fk_gc_tn FOREIGN KEY (table_name) REFERENCES gpkg_contents(table_name),
  CONSTRAINT fk_gc_srs FOREIGN KEY (srs_id) REFERENCES gpkg_spatial_ref_sys (srs_id))""",
    """CREATE TABLE gpkg_extensions (
  table_name TEXT, column_name TEXT, extension_name TEXT NOT NULL, definition TEXT NOT NULL,
  scope TEXT NOT NULL, CONSTRAINT ge_tce UNIQUE (table_name, column_name, extension_name))""",
    """CREATE TABLE gpkg_data_columns (
  table_name TEXT NOT NULL, column_name TEXT NOT NULL, name TEXT, title TEXT, description TEXT,
  mime_type TEXT, constraint_name TEXT,
  CONSTRAINT pk_gdc PRIMARY KEY (table_name, column_name),
  CONSTRAINT gdc_tn UNIQUE (table_name, name))""",
    """CREATE TABLE gpkg_data_column_constraints (
  constraint_name TEXT NOT NULL, constraint_type TEXT NOT NULL, value TEXT, min NUMERIC,
  min_is_inclusive BOOLEAN, max NUMERIC, max_is_inclusive BOOLEAN, description TEXT,
  CONSTRAINT gdcc_ntv UNIQUE (constraint_name, constraint_type, value))""",
    """CREATE TABLE gpkgext_relations (
  id INTEGER PRIMARY KEY AUTOINCREMENT, base_table_name TEXT NOT NULL,
  base_primary_column TEXT NOT NULL DEFAULT 'id', related_table_name TEXT NOT NULL,
  related_primary_column TEXT NOT NULL DEFAULT 'id', relation_name TEXT NOT NULL,
  mapping_table_name TEXT NOT NULL UNIQUE)""",
)

_WGS84 = (
    'GEOGCS["WGS 84",DATUM["WGS_1984",SPHEROID["WGS 84",6378137,298.257223563,'
    'AUTHORITY["EPSG","7030"]],AUTHORITY["EPSG","6326"]],PRIMEM["Greenwich",0,'
    'AUTHORITY["EPSG","8901"]],UNIT["degree",0.0174532925199433,AUTHORITY["EPSG","9122"]],'
    'AUTHORITY["EPSG","4326"]]'
)
_SYSTEMS = (
    ("Undefined Cartesian", -1, "NONE", -1, "undefined", "a grid tied to the ground only"),
    ("Undefined geographic", 0, "NONE", 0, "undefined", None),
    ("WGS 84", 4326, "EPSG", 4326, _WGS84, None),
)
_SCHEMA = ("gpkg_schema", "http://www.geopackage.org/spec140/#extension_schema", "read-write")
_RELATED = ("related_tables", "http://www.geopackage.org/18-000.html", "read-write")
_INDEX = (
    "gpkg_rtree_index",
    "http://www.geopackage.org/spec140/#extension_rtree",
    "write-only",
)


def create(con: Connection, crs: str) -> int:
    """Make an empty file a GeoPackage with this coordinate system; return the system's number.

    Raises:
        CannotUse: the system is unknown or not in metres.
    """
    con.execute(f"PRAGMA application_id = {APPLICATION_ID}")
    con.execute(f"PRAGMA user_version = {VERSION}")
    for sql in _SQL:
        con.execute(sql)
    add_extension(con, "gpkg_data_columns", None, _SCHEMA)
    add_extension(con, "gpkg_data_column_constraints", None, _SCHEMA)
    add_extension(con, "gpkgext_relations", None, _RELATED)
    con.executemany("INSERT INTO gpkg_spatial_ref_sys VALUES (?, ?, ?, ?, ?, ?)", _SYSTEMS)
    return add_system(con, crs)


def add_system(con: Connection, crs: str) -> int:
    """Record a coordinate system, if it is not there yet, and return its number.

    Raises:
        CannotUse: the system is unknown or not in metres.
    """
    facts = described(crs)
    con.execute(
        "INSERT OR IGNORE INTO gpkg_spatial_ref_sys VALUES (?, ?, 'EPSG', ?, ?, NULL)",
        (facts.name, facts.srs_id, facts.srs_id, facts.wkt),
    )
    return facts.srs_id


def note_system(con: Connection, table: str, srs_id: int) -> None:
    """Say in which coordinate system, which is recorded, a table's shapes lie."""
    for told in ("gpkg_contents", "gpkg_geometry_columns"):
        con.execute(f"UPDATE {told} SET srs_id = ? WHERE table_name = ?", (srs_id, table))


def add_extension(
    con: Connection, table: str, column: str | None, extension: tuple[str, str, str]
) -> None:
    """Say that a table, or a column of it, follows an extension."""
    con.execute(
        "INSERT INTO gpkg_extensions VALUES (?, ?, ?, ?, ?)", (table, column, *extension)
    )


def forget(con: Connection, table: str, column: str) -> None:
    """Remove what is said of a table that is gone, by a program that did not say so."""
    for told in (
        "gpkg_geometry_columns",
        "gpkg_data_columns",
        "gpkg_extensions",
        "gpkg_contents",
    ):
        con.execute(f"DELETE FROM {told} WHERE table_name = ?", (table,))
    con.execute(f'DROP TABLE IF EXISTS "{rtree.name(table, column)}"')


def add_attributes(con: Connection, table: str, title: str, description: str) -> None:
    """Announce a table without geometry."""
    con.execute(
        "INSERT INTO gpkg_contents (table_name, data_type, identifier, description)"
        " VALUES (?, 'attributes', ?, ?)",
        (table, title, description),
    )


def add_features(
    con: Connection, table: str, title: str, *, geometry: tuple[str, str], srs_id: int
) -> None:
    """Announce a table with geometry, given as column and type, and give it an R-tree."""
    column, form = geometry
    con.execute(
        "INSERT INTO gpkg_contents (table_name, data_type, identifier, srs_id)"
        " VALUES (?, 'features', ?, ?)",
        (table, title, srs_id),
    )
    con.execute(
        "INSERT INTO gpkg_geometry_columns VALUES (?, ?, ?, ?, 0, 0)",
        (table, column, form, srs_id),
    )
    for sql in rtree.statements(table, column):
        con.execute(sql)
    add_extension(con, table, column, _INDEX)


def add_mapping(con: Connection, mapping: str, table: str, media: str) -> None:
    """Make a table that says which media belong to which rows of a table."""
    con.execute(
        f'CREATE TABLE "{mapping}" (base_id INTEGER NOT NULL, related_id INTEGER NOT NULL)'
    )
    con.execute(
        "INSERT INTO gpkgext_relations (base_table_name, base_primary_column,"
        " related_table_name, related_primary_column, relation_name, mapping_table_name)"
        " VALUES (?, 'fid', ?, 'id', 'media', ?)",
        (table, media, mapping),
    )
    add_extension(con, mapping, None, _RELATED)


def note_change(con: Connection, tables: Iterable[str]) -> None:
    """Write into the contents that tables were changed now."""
    con.executemany(
        "UPDATE gpkg_contents SET last_change = strftime('%Y-%m-%dT%H:%M:%fZ', 'now')"
        " WHERE table_name = ?",
        ((table,) for table in tables),
    )


def note_extents(con: Connection) -> None:
    """Write into the contents how far each table reaches, a few centimetres outward."""
    tables = con.execute(
        "SELECT table_name, column_name FROM gpkg_geometry_columns JOIN gpkg_extensions"
        " USING (table_name, column_name) WHERE extension_name = 'gpkg_rtree_index'"
    ).fetchall()
    for table, column in tables:
        index = rtree.name(table, column).replace('"', '""')
        con.execute(
            "UPDATE gpkg_contents SET (min_x, min_y, max_x, max_y) ="
            f' (SELECT min(minx), min(miny), max(maxx), max(maxy) FROM "{index}")'
            " WHERE table_name = ?",
            (table,),
        )
