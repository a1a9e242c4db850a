"""PyMuPDF, loaded when the first page is made; it comes without types."""

from importlib import import_module
from typing import Any


def mupdf() -> Any:
    """The library."""
    return import_module("pymupdf")
