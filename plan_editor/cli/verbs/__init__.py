"""One file a verb."""
