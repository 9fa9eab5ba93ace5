"""One file a menu."""
