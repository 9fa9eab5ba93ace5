"""Named changes, one file a family."""
