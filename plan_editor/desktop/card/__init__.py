"""The card: the thing in hand, its fields, its size, its records."""
