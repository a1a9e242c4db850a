"""PyMuPDF, loaded when the first page is made; it comes without types."""

from importlib import import_module
from typing import Any


def mupdf() -> Any:
    """The library."""
    return import_module("pymupdf")


def troubles() -> tuple[type[Exception], ...]:
    """What the library raises over a file that is damaged, or made to do harm."""
    return (
        RuntimeError,
        ValueError,
        TypeError,
        LookupError,
        AttributeError,
        import_module("pymupdf.mupdf").FzErrorBase,
    )
