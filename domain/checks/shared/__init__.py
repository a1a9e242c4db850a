"""What checks ask together: limits applied, tolerances, what feeds what. Nothing here makes a check of its own."""
