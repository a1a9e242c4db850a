"""Checks of what is designed into a circuit: devices, conductors, RCDs where they are required."""
