"""One file a tool."""
