"""What published guidance says of observations like this one. The inspector chooses the code."""
