"""Least squares over what was measured: places, errors, blunders, advice."""
