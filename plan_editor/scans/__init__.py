"""Pictures of paper: read, cut into tiles, resample."""
