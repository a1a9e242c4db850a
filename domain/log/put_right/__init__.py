"""How what a report found under C1, C2 and FI is put right, paper by paper."""
