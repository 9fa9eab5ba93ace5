"""Field books: what stands in them, line by line."""
