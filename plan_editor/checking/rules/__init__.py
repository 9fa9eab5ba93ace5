"""One file a rule."""
