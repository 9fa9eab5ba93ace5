"""The sections of the survey panel, one file each."""
