"""What an office and its laptops tell each other, and who holds which job meanwhile. Knows neither store nor clock."""
