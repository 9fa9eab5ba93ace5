"""What there is on a churchyard and in its books: one file a kind."""
