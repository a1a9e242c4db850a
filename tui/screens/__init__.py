"""One screen a question of the trade."""
