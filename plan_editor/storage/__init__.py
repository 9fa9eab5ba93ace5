"""The GeoPackage document; the only package that imports sqlite3."""
