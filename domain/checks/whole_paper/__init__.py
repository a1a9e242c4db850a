"""Checks of the paper as a whole: edition, instruments, names, contradictions, figures that look made up."""
