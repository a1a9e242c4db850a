"""Every figure of a standard, one TOML file a table and edition, each with its source."""
