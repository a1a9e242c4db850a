"""The arithmetic of verification: Decimal in, a working out."""
