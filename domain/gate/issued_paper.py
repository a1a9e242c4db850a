"""A paper that was issued, as the log holds it."""

from domain.gate.assessment import Pack
from domain.value import Value


class IssuedPaper(Value):
    """A paper that was issued."""

    number: str
    sha256: str
    """Of the PDF, in hexadecimal."""
    record_sha256: str
    """Of the record as it is kept, and attached to the PDF."""
    pages: int
    pack: Pack
    kept: str
    """The file people find the log's own copy of the PDF in; "" where it lies in no file of its own."""
    replaced_by: str = ""
    """The document that was issued in its place."""
