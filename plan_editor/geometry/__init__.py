"""Shapes and numbers: metres, no idea of churchyards."""
