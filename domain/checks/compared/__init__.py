"""What stands beside a reading for comparison: the limit it is held against, and what it should be."""
