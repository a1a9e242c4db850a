"""Paper: sheets set into pages, finished, and read back."""
