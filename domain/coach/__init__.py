"""Explanations and practice for newcomers. Empty yet."""
