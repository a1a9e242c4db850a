"""The log at every size one office reaches: measured, killed and cut off. `python -m tests.ladder` says how."""
