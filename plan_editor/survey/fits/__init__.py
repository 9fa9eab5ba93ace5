"""Base plans fitted to points whose places are known."""
