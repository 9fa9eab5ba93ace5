"""Pointer in, answer out."""
