"""The form sets as values, and (choice) which of them a piece of work needs. Knows nothing of a job."""
