"""An office and its laptops, in memory and at random: `python -m tests.laptops` runs it long and keeps `LAST.md`."""
