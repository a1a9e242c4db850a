"""Signatures put behind an issued paper by somebody's own certificate: made, and checked. They need `ohmfolio[sign]`."""
