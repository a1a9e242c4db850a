"""The last hand on a file of the engine: who made it, the place of its seal, and its bytes packed.

A paper holds an object for each cell that a reader can go to: tens of thousands in a large one. The PDF library puts them into
object streams; what it leaves long is the table of objects, and that alone is written here.
"""

import re
import zlib
from typing import Any

from storage.paper import seal
from storage.paper.mupdf import mupdf
from storage.paper.paper_error import PaperError

MAKER = "Ohmfolio"
_TOOL = re.compile(rb"(<xmp:CreatorTool>)[^<]*(</xmp:CreatorTool>)")
_CELL = re.compile(rb"(?<= obj\n)<</Type/StructElem/S/T[DH]/[^\n]*")
"""The object of a cell as the engine writes it; nothing that people typed begins so: in strings the engine escapes line ends."""
_LOOK = re.compile(rb"<</O/Layout/Border[^>]*>>")
"""How the borders of a cell look, for programs that flow a page anew; left to the page."""
_TABLE = re.compile(rb"/W\[1 4 1\](/Index\[0 \d+\])/Length (\d+)/Filter/FlateDecode>>\nstream\n")
_ROW = 6
"""Bytes of an entry of the library's table of objects: its kind, and four and one of where it is."""


def packed(pdf: bytes, *, sealing: bool, signing: bool) -> tuple[bytes, int]:
    """The file made smaller and signed with our name, and its pages. The same bytes give the same bytes."""
    document: Any = mupdf().open(stream=_CELL.sub(_without_look, pdf), filetype="pdf")
    _name_maker(document)
    if sealing:
        seal.prepare(document, signing=signing)
    return with_short_table(document.tobytes(deflate=True, use_objstms=1, no_new_id=True)), len(document)


def _without_look(cell: re.Match[bytes]) -> bytes:
    """As long as it was, so that all else stays where the file says it is."""
    return _LOOK.sub(lambda look: b" " * len(look[0]), cell[0])


def _name_maker(document: Any) -> None:
    """In the information and in the metadata alike: an archive file may not say two things of itself."""
    document.xref_set_key(_number(document, -1, "Info"), "Creator", f"({MAKER})")
    metadata = _number(document, document.pdf_catalog(), "Metadata")
    named = _TOOL.sub(rb"\g<1>%b\g<2>" % MAKER.encode(), document.xref_stream(metadata))
    document.update_stream(metadata, named, compress=False)


def _number(document: Any, within: int, name: str) -> int:
    """The number of the object that a dictionary names so."""
    kind, said = document.xref_get_key(within, name)
    if kind != "xref":
        raise PaperError(f"The paper cannot be packed: the engine's file names no {name}")
    return int(said.split()[0])


def with_short_table(pdf: bytes) -> bytes:
    """The file with its table of objects told by how each entry differs from the one before (PNG's Up; ISO 32000-1, 7.4.4.4).

    A file whose table is written otherwise than the library does it now is left as it is: larger, and as good.
    """
    table = _TABLE.search(pdf, int(pdf[pdf.rindex(b"startxref") + len(b"startxref") :].split()[0]))
    if table is None:
        return pdf
    end = table.end() + int(table[2])
    plain = zlib.decompress(pdf[table.end() : end])
    changes = bytes([(now - was) & 0xFF for now, was in zip(plain, bytes(_ROW) + plain, strict=False)])
    held = zlib.compress(b"".join([b"\2" + changes[at : at + _ROW] for at in range(0, len(changes), _ROW)]), 9)
    said = b"/W[1 4 1]%b/Length %d/Filter/FlateDecode/DecodeParms<</Predictor 12/Columns %d>>>>\nstream\n"
    return pdf[: table.start()] + said % (table[1], len(held), _ROW) + held + pdf[end:]
