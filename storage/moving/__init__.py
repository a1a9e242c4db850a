"""A whole log moved from one keeper to another: read and written part by part, and proved row by row before it is opened."""
