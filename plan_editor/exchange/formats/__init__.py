"""One file or folder a format."""
