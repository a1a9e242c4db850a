"""What may be asked of a job log, what its lines and lists say, and what earlier papers tell: last time, put right."""
