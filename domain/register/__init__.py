"""What an office types once: its people, firms, clients, premises and instruments."""
