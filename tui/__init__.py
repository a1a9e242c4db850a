"""Asks and shows: the terminal screens and the command line."""
