"""Sheets, and the PDF that carries them."""
