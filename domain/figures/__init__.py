"""Every figure of a standard: the tables it is read from (limits), the arithmetic (formulas), and figures asked for (asked)."""
