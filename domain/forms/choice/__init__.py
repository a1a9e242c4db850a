"""Which form set a job needs, and why."""
