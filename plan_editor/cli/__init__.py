"""The command line: every computation and every output without a window."""
