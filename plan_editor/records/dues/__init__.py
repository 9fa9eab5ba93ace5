"""The sorts of due, one file each, each declaring ``DUE``."""
