"""Coordinate systems, and the ways between them."""
