"""A paper of the program with another record in it, for logs of many papers."""

import re
import zlib

_RECORD_STREAM = re.compile(rb"(\d+) 0 obj\n<</Type/EmbeddedFile/Subtype/application#2Fjson/Length (\d+)")


def with_record(paper: bytes, record: bytes) -> bytes:
    """A paper with another record attached, put behind it as a second issue of the same object."""
    squeezed = zlib.compress(record)
    found = _RECORD_STREAM.search(paper)
    assert found
    ((root,), (size,), (before,)) = (
        re.findall(pattern, paper) for pattern in (rb"/Root (\d+) 0 R", rb"/Size (\d+)/W", rb"startxref\n(\d+)")
    )
    number, next_one = int(found[1]), int(size)
    first = len(paper)
    made = (
        b"%d 0 obj\n<</Type/EmbeddedFile/Subtype/application#2Fjson/Length %d/Filter/FlateDecode/Params<</Size %d>>>>\n"
        % (
            number,
            len(squeezed),
            len(record),
        )
    )
    made += b"stream\n%b\nendstream\nendobj\n" % squeezed
    table = first + len(made)
    places = b"".join(b"\1%b\0" % at.to_bytes(4, "big") for at in (first, table))
    made += (
        b"%d 0 obj\n<</Type/XRef/Size %d/W[1 4 1]/Index[%d 1 %d 1]/Root %b 0 R/Prev %b/Length %d>>\nstream\n%b\nendstream\nendobj\n"
        % (next_one, next_one + 1, number, next_one, root, before, len(places), places)
    )
    return paper + made + b"startxref\n%d\n%%%%EOF\n" % table
