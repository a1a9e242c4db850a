"""A file of the engine taken apart into its objects, and written anew with the small ones squeezed together.

A paper holds an object for each cell that a reader can go to: tens of thousands in a large one. The engine writes them
plainly, each with its borders and its heads. Here they go into object streams (ISO 32000-1, 7.5.7 and 7.5.8, from memory),
what the cells of a column say alike stands once, and how borders look is left to the page. PDF libraries do it too, but
leave the file larger, or take longer than setting it took.
"""

import re
import zlib
from collections.abc import Iterator
from dataclasses import dataclass

from storage.paper.paper_error import PaperError

_TO_A_STREAM = 500
"""Objects; a reader lays all of a stream open to come to one of them."""
_LOOK = re.compile(rb"<</O/Layout/Border[^>]*>>")
"""How the borders of a cell look, for programs that flow a page anew."""
_HEADS = re.compile(rb"/A\[(<</O/Table/Headers\[[^\]]*\]>>)\]")
"""Which heads a cell of a table stands under, where nothing else is said of it."""
_CELLS = (b"<</Type/StructElem/S/TD/", b"<</Type/StructElem/S/TH/")
"""How the objects of cells begin; what people typed stands in none of them."""
_SUBSECTION = re.compile(rb"(\d+) (\d+)\s*\n")
_ENTRY = 20
"""Bytes of an entry of a plain table of objects."""
_ROW = 7
"""Bytes of an entry of the table written here: its kind, and four and two of where it is."""
_SIZE = re.compile(rb"/Size \d+")
_WORTH_IT = 1000
"""Bytes of a stream from which on it is squeezed again."""
_BEGINS, _ENDS = b" obj\n", b"endobj"
_STREAM, _STREAM_ENDS = b"\nstream\n", b"\nendstream"
_KIDS = re.compile(rb"/Kids\[([^\]]*)\]")
_ONE = re.compile(rb"(\d+) 0 R")


@dataclass(slots=True)
class EngineFile:
    """The objects of a file by number, each without what stands around it."""

    head: bytes
    streams: dict[int, bytes]
    plain: dict[int, bytes]
    trailer: bytes

    @classmethod
    def of(cls, pdf: bytes) -> "EngineFile":
        """Taken apart. PaperError where the engine writes its files otherwise than this one was."""
        start = int(pdf[pdf.rindex(b"startxref") + len(b"startxref") :].split()[0])
        trailer = pdf.find(b"trailer", start)
        if not pdf.startswith(b"xref\n", start) or trailer < 0:
            raise PaperError(
                "The paper cannot be packed: the engine writes its files otherwise than this program knows"
            )
        found = sorted((offset, number) for number, offset in _offsets(pdf, start + len(b"xref\n"), trailer))
        streams, plain = dict[int, bytes](), dict[int, bytes]()
        ends = [offset for offset, _ in found[1:]] + [start]
        for (offset, number), end in zip(found, ends, strict=True):
            body = pdf[pdf.index(_BEGINS, offset) + len(_BEGINS) : pdf.rindex(_ENDS, offset, end)].rstrip()
            (streams if body.endswith(_STREAM_ENDS) else plain)[number] = body
        said = pdf[trailer + len(b"trailer") : pdf.rindex(b"startxref")].strip()
        return cls(pdf[: found[0][0]].rstrip() + b"\n", streams, plain, said)

    def named(self, name: bytes, within: bytes) -> int:
        """The number of the object that a dictionary names so."""
        found = re.search(rb"/%b (\d+) 0 R" % name, within)
        if found is None:
            raise PaperError(f"The paper cannot be packed: the engine's file names no {name.decode()}")
        return int(found[1])

    @property
    def root(self) -> bytes:
        """The dictionary that all others are found from."""
        return self.plain[self.named(b"Root", self.trailer)]

    def pages(self) -> list[int]:
        """The pages in their order, by the numbers of their objects."""
        return list(self._pages(self.named(b"Pages", self.root)))

    def _pages(self, number: int) -> Iterator[int]:
        if kids := _KIDS.search(self.plain[number]):
            for kid in _ONE.findall(kids[1]):
                yield from self._pages(int(kid))
        else:
            yield number

    def content(self, number: int) -> bytes:
        """What a stream holds, laid open."""
        said, _, rest = self.streams[number].partition(_STREAM)
        held = rest.removesuffix(_STREAM_ENDS)
        return zlib.decompress(held) if b"/FlateDecode" in said else held

    def squeeze(self) -> None:
        """Squeeze streams harder than the engine does: it cares for speed, and a paper is made once and kept for long."""
        for number, body in self.streams.items():
            said, _, held = body.partition(_STREAM)
            if b"/FlateDecode" in said and len(held) > _WORTH_IT:
                harder = zlib.compress(self.content(number), 9)
                if len(harder) < len(held):
                    self.put_stream(number, harder)

    def add_stream(self, content: bytes, *, squeeze: bool) -> int:
        """A new stream, its content squeezed or, within the same wrapping, as it is; its number."""
        number = max(*self.streams, *self.plain) + 1
        self.streams[number] = _stream(b"/Filter/FlateDecode", zlib.compress(content, 9 if squeeze else 0))
        return number

    def put_stream(self, number: int, content: bytes) -> None:
        """Other content for a stream, in the form its dictionary says."""
        said = re.sub(rb"/Length \d+", b"", self.streams[number].partition(_STREAM)[0])
        self.streams[number] = _stream(said.strip().removeprefix(b"<<").removesuffix(b">>"), content)

    def written(self) -> bytes:
        """The file. The same objects give the same bytes."""
        size = max(*self.streams, *self.plain) + 1
        plain = list(_shared(self.plain, size).items())
        size = max(size, plain[-1][0] + 1)
        parts = [plain[at : at + _TO_A_STREAM] for at in range(0, len(plain), _TO_A_STREAM)]
        together = {size + number: _together(part) for number, part in enumerate(parts)}
        made, at, table = [self.head], len(self.head), dict[int, tuple[int, int, int]]()
        for number, body in (*self.streams.items(), *together.items()):
            table[number] = (1, at, 0)
            made.append(b"%d 0 obj\n%b\nendobj\n" % (number, body))
            at += len(made[-1])
        for number, part in zip(together, parts, strict=True):
            table |= {each: (2, number, index) for index, (each, _) in enumerate(part)}
        return b"".join([*made, _table(table, at, size + len(parts), self.trailer)])


def _offsets(pdf: bytes, at: int, end: int) -> Iterator[tuple[int, int]]:
    """The objects in use, each with where it begins."""
    while at < end and (part := _SUBSECTION.match(pdf, at, end)):
        at, first = part.end(), int(part[1])
        for number in range(first, first + int(part[2])):
            entry = pdf[at : at + _ENTRY]
            if entry[17:18] == b"n":
                yield number, int(entry[:10])
            at += _ENTRY


def _shared(plain: dict[int, bytes], size: int) -> dict[int, bytes]:
    """The objects without the look of borders, and with the heads of a column once, as an object of its own."""
    heads: dict[bytes, int] = {}

    def one_of_them(found: re.Match[bytes]) -> bytes:
        return b"/A %d 0 R" % heads.setdefault(found[1], size + len(heads))

    made = {
        number: _HEADS.sub(one_of_them, _LOOK.sub(b"", body)) if body.startswith(_CELLS) else body
        for number, body in plain.items()
    }
    return made | {number: body for body, number in heads.items()}


def _together(part: list[tuple[int, bytes]]) -> bytes:
    head, at = list[bytes](), 0
    for number, body in part:
        head.append(b"%d %d" % (number, at))
        at += len(body) + 1
    first = b" ".join(head) + b"\n"
    packed = zlib.compress(first + b"\n".join([body for _, body in part]), 9)
    return _stream(b"/Type/ObjStm/N %d/First %d/Filter/FlateDecode" % (len(part), len(first)), packed)


def _stream(said: bytes, held: bytes) -> bytes:
    return b"<<%b/Length %d>>%b%b%b" % (said, len(held), _STREAM, held, _STREAM_ENDS)


def _table(table: dict[int, tuple[int, int, int]], at: int, own: int, trailer: bytes) -> bytes:
    """The table of objects and the end of the file; each entry is told by how it differs from the one before (PNG's Up)."""
    table |= {own: (1, at, 0)}
    before, rows = bytes(_ROW), list[bytes]()
    for number in range(own + 1):
        kind, where, index = table.get(number, (0, 0, 0 if number else 0xFFFF))
        row = bytes((kind, *where.to_bytes(4, "big"), *index.to_bytes(2, "big")))
        rows.append(bytes((2, *[(now - was) & 0xFF for now, was in zip(row, before, strict=True)])))
        before = row
    said = b"/Type/XRef/W[1 4 2]/Filter/FlateDecode/DecodeParms<</Predictor 12/Columns %d>>/Size %d%b" % (
        _ROW,
        own + 1,
        _SIZE.sub(b"", trailer).removeprefix(b"<<").removesuffix(b">>"),
    )
    body = _stream(said, zlib.compress(b"".join(rows), 9))
    return b"%d 0 obj\n%b\nendobj\nstartxref\n%d\n%%%%EOF\n" % (own, body, at)
