"""The job, its rules and its figures: pure values and functions, no clock, no files, no terminal."""
