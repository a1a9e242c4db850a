"""A frugal terminal: sends only what changed on the screen, and takes keys as poor lines deliver them."""
