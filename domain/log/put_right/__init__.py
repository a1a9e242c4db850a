"""How what an unsatisfactory report found is put right, paper by paper."""
