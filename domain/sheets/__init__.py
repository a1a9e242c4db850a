"""What each page says: a module a sheet, pure text and tables, no layout engine."""
