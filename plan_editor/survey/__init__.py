"""Grids, tapes and fitting."""
