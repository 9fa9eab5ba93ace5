"""The schedules, one file each, each declaring ``SCHEDULE``."""
