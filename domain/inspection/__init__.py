"""Inspection of the installation: the items, and what was found at each."""
