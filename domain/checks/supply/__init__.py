"""Checks of what stands before the first circuit: supply, earthing, bonding, boards one after the other."""
