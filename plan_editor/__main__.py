"""Start the desktop, or the command line where a verb is given."""
