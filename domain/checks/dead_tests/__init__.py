"""Checks of what is measured before the supply is on: continuity, rings, insulation, polarity."""
