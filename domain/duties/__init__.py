"""What else is owed for a job, to whom, and by when."""
