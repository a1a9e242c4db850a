"""What was found at the same address before, beside what is found now."""
