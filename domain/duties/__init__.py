"""Clocks: dates owed by law or good practice. Empty yet."""
