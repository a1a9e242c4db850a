"""Checks of what is measured with the supply on: loops and RCD times."""
