"""The form in which a field book is written, with what comes of it."""
