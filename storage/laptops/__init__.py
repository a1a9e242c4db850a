"""Bundles between an office and its laptops as files: written, examined without trust, carried by folder or line; and the first file of a laptop."""
