"""Other programs' files, in and out."""
