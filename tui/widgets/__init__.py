"""What screens are built of: boxes drawn by line, the schedule grid, lists."""
