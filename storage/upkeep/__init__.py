"""Looks after the log: what it finds wrong, who may use it, copies of it and the way back to them."""
