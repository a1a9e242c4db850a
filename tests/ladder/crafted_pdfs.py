"""Files made by hand to stop, swell or fool whoever looks at a paper, by what is wrong with each; `paper` is a real one."""

import os
import zlib
from collections.abc import Callable, Mapping
from pathlib import Path

from tests.storage.hostile_files import (
    boxes_in_boxes,
    great_table,
    page_of_great_size,
    pages_without_end,
    pdf_with,
    swollen,
    written,
)

Put = Callable[[Path, bytes], object]
_CATALOG, _TREE = b"<</Type/Catalog/Pages 2 0 R>>", b"<</Type/Pages/Kids[3 0 R]/Count 1>>"
_PAGE = b"<</Type/Page/Parent 2 0 R/MediaBox[0 0 99 99]>>"
_SEAL = b"\n% Ohmfolio seal, glyphs " + b"0" * 64 + b", " + b"0" * 64 + b"\n"
_NUMBERS = (b"-1", b"0", b"1e9", b"2147483647", b"4294967296", b"9" * 400, b"null", b"/Name", b"(text)", b"4 0 R")


def _bytes(made: Callable[[bytes], bytes]) -> Put:
    return lambda path, paper: path.write_bytes(made(paper))


def _stream(body: bytes, said: bytes = b"") -> bytes:
    return b"<<%b/Length %d>>stream\n%b\nendstream" % (said, len(body), body)


def _with(*more: bytes, catalog: bytes = _CATALOG, tree: bytes = _TREE, page: bytes = _PAGE) -> bytes:
    return written([catalog, tree, page, *more])


def _update(paper: bytes, body: bytes, times: int = 1) -> bytes:
    """Behind a whole file, another part that changes something, so many times."""
    made = [paper]
    at = len(paper)
    for number in range(900, 900 + times):
        part = b"%d 0 obj%bendobj\nxref\n%d 1\n%010d 00000 n \ntrailer<</Size 2000/Root 1 0 R/Prev %d>>\nstartxref\n%d\n%%%%EOF\n"
        made.append(part % (number, body, number, at, max(at - 900, 0), at + len(body) + 20))
        at += len(made[-1])
    return b"".join(made)


def _signed(spans: bytes, contents: bytes = b"00" * 4000) -> bytes:
    return b"<</Type/Sig/Filter/Adobe.PPKLite/SubFilter/ETSI.CAdES.detached/ByteRange[%b]/Contents<%b>>>" % (
        spans,
        contents,
    )


def signed_over(paper: bytes, spans: bytes, contents: bytes = b"00" * 4000) -> bytes:
    """A paper with a field of a signature behind it that says it covers these bytes."""
    root = paper[paper.rindex(b"/Root") :].split(None, 1)[0] if b"/Root" in paper else b"/Root"
    number = root.removeprefix(b"/Root").strip() or paper[paper.rindex(b"/Root") + 5 :].split(None, 1)[0]
    catalog = int(number)
    bodies = {
        catalog: b"<</Type/Catalog/Pages 2 0 R/AcroForm<</SigFlags 3/Fields[901 0 R]>>>>",
        901: b"<</FT/Sig/T(Signature1)/Type/Annot/Subtype/Widget/Rect[0 0 0 0]/V 902 0 R>>",
        902: _signed(spans, contents),
    }
    made, places = paper if paper.endswith(b"\n") else paper + b"\n", dict[int, int]()
    for at, body in bodies.items():
        places[at] = len(made)
        made += b"%d 0 obj%bendobj\n" % (at, body)
    before = int(paper[paper.rindex(b"startxref") + 9 :].split()[0])
    table = b"".join(b"%d 1\n%010d 00000 n \n" % (at, place) for at, place in sorted(places.items()))
    end = b"xref\n%btrailer<</Size 903/Root %d 0 R/Prev %d>>\nstartxref\n%d\n%%%%EOF\n"
    return made + end % (table, catalog, before, len(made))


def _sparse(path: Path, size: int, begins: bytes = b"%PDF-1.7\n") -> None:
    path.write_bytes(begins)
    os.truncate(path, size)


def _loop(first: int) -> bytes:
    """A table of places that leads back to itself."""
    body = b"%PDF-1.7\n1 0 obj<</Type/Catalog/Pages 2 0 R>>endobj\n"
    return body + b"xref\n0 1\n0000000000 65535 f \ntrailer<</Size 9/Root 1 0 R/Prev %d>>\nstartxref\n%d\n%%%%EOF" % (
        first,
        len(body),
    )


def _object_stream(count: int, body: bytes) -> bytes:
    packed = zlib.compress(body)
    return _with(_stream(packed, b"/Type/ObjStm/N %d/First 10/Filter/FlateDecode" % count))


def _cut(part: float) -> Put:
    return _bytes(lambda paper: paper[: int(len(paper) * part)])


CRAFTED_PDFS: Mapping[str, Put] = {
    # What is no file, or none to speak of.
    "pipe": lambda path, paper: os.mkfifo(path),
    "folder": lambda path, paper: path.mkdir(),
    "device of zeros": lambda path, paper: path.symlink_to("/dev/zero"),
    "device of chance": lambda path, paper: path.symlink_to("/dev/urandom"),
    "terminal": lambda path, paper: path.symlink_to("/dev/tty"),
    "link to itself": lambda path, paper: path.symlink_to(path),
    "link to nothing": lambda path, paper: path.symlink_to("/nowhere/at/all"),
    "link to a pipe": lambda path, paper: (os.mkfifo(path.with_suffix(".pipe")), path.symlink_to(path.with_suffix(".pipe"))),
    "memory of a process": lambda path, paper: path.symlink_to("/proc/self/mem"),
    "file of the kernel": lambda path, paper: path.symlink_to("/proc/kmsg"),
    "no bytes": _bytes(lambda paper: b""),
    "one byte": _bytes(lambda paper: b"%"),
    "only its first line": _bytes(lambda paper: b"%PDF-1.7\n"),
    "a terabyte of nothing": lambda path, paper: _sparse(path, 1 << 40),
    "sixty megabytes of nothing": lambda path, paper: _sparse(path, 60 << 20),
    "nothing and a seal": lambda path, paper: _sparse(path, 60 << 20, b"%PDF-1.7\n" + _SEAL),
    "one byte beyond the largest": lambda path, paper: _sparse(path, (64 << 20) + 1),
    "zeros before it": _bytes(lambda paper: bytes(5000) + paper),
    # A real paper, cut, doubled or with something behind it.
    **{f"cut after {part:.0%}": _cut(part) for part in (0.1, 0.5, 0.9, 0.999)},
    "twice": _bytes(lambda paper: paper * 2),
    "forty times": _bytes(lambda paper: paper * 40),
    "back to front": _bytes(lambda paper: paper[::-1]),
    "without its last line": _bytes(lambda paper: paper[: paper.rindex(b"%%EOF")]),
    "ends by the million": _bytes(lambda paper: paper + b"%%EOF\n" * 1_000_000),
    "one byte behind it": _bytes(lambda paper: paper + b"x"),
    "changed once behind it": _bytes(lambda paper: _update(paper, b"<</A 1>>")),
    "changed hundreds of times": _bytes(lambda paper: _update(paper, b"<</A 1>>", 400)),
    "changed ten thousand times": _bytes(lambda paper: _update(paper, b"<<>>", 10_000)),
    "another file behind it": _bytes(lambda paper: paper + _with()),
    "a script behind it": _bytes(lambda paper: _update(paper, b"<</S/JavaScript/JS(app.alert(1))>>")),
    "seals by the thousand": _bytes(lambda paper: paper + _SEAL * 100_000),
    "seals that nearly are": _bytes(lambda paper: _with() + (_SEAL + b"a" * 199) * 100_000),
    # Signatures behind it that say they cover what is not there.
    **{
        f"signed over {name}": _bytes(lambda paper, spans=spans: signed_over(paper, spans))
        for name, spans in {
            "a terabyte": b"0 1000000000000 1000000000000 1000000000000",
            "twice a terabyte": b"0 10 20 2000000000000",
            "less than nothing": b"0 -10 -20 10",
            "more than numbers go": b"0 " + b"9" * 300 + b" 20 30",
            "nothing": b"",
            "one number": b"0",
            "a hundred thousand parts": b"0 1 " * 100_000,
            "names": b"/A /B /C /D",
            "references": b"1 0 R 2 0 R 3 0 R 4 0 R",
            "itself": b"902 0 R 902 0 R 902 0 R 902 0 R",
            "half numbers": b"0.5 1.5 2.5 3.5",
            "the first ten bytes": b"0 10 20 10",
        }.items()
    },
    "signed with nothing": _bytes(lambda paper: signed_over(paper, b"0 10 20 30", b"")),
    "signed with lists in lists": _bytes(lambda paper: signed_over(paper, b"0 10 20 30", b"3080" * 50_000)),
    "signed with a length beyond it": _bytes(lambda paper: signed_over(paper, b"0 10 20 30", b"3084ffffffff" * 9)),
    # Counts, sizes and numbers that are not so.
    **{f"pages counted {count[:12].decode()}": _bytes(lambda paper, count=count: _with(tree=b"<</Type/Pages/Kids[3 0 R]/Count %b>>" % count)) for count in _NUMBERS},
    **{f"size of {count[:12].decode()}": _bytes(lambda paper, count=count: _with(page=b"<</Type/Page/Parent 2 0 R/MediaBox[0 0 %b 99]>>" % count)) for count in _NUMBERS[2:6]},
    **{f"objects counted {count[:12].decode()}": _bytes(lambda paper, count=count: _with() .replace(b"/Size 4", b"/Size " + count)) for count in _NUMBERS[2:6]},
    "place of its table beyond it": _bytes(lambda paper: _with() + b"\nstartxref\n99999999999999999999\n%%EOF"),
    "place of its table before it": _bytes(lambda paper: _with() + b"\nstartxref\n-5\n%%EOF"),
    "table that leads to itself": _bytes(lambda paper: _loop(53)),
    "table that leads to nowhere": _bytes(lambda paper: _loop(10**9)),
    "great table": _bytes(lambda paper: great_table()),
    "a million lines of a table": _bytes(lambda paper: b"%PDF-1.7\nxref\n0 1000000\n" + b"0000000009 00000 n \n" * 1_000_000 + b"trailer<</Size 1000000/Root 1 0 R>>\nstartxref\n9\n%%EOF"),
    # Trees and lists that do not end.
    "tree that holds itself": _bytes(lambda paper: _with(tree=b"<</Type/Pages/Kids[2 0 R]/Count 1>>")),
    "page that is its own parent": _bytes(lambda paper: _with(page=b"<</Type/Page/Parent 3 0 R>>")),
    "pages without end": _bytes(lambda paper: pages_without_end()),
    "page of kilometres": _bytes(lambda paper: page_of_great_size()),
    "lists in lists": _bytes(lambda paper: boxes_in_boxes()),
    "lists in lists by the million": _bytes(lambda paper: boxes_in_boxes(5_000_000)),
    "words in words": _bytes(lambda paper: _with(b"<</A " * 300_000 + b">>" * 300_000)),
    "texts in texts": _bytes(lambda paper: _with(b"(" * 3_000_000)),
    "names of a megabyte": _bytes(lambda paper: _with(b"<</" + b"A" * 1_000_000 + b" 1>>")),
    "a million objects": _bytes(lambda paper: _with(*[b"<<>>"] * 400_000)),
    "reference to itself": _bytes(lambda paper: _with(b"4 0 R", catalog=b"4 0 R")),
    # Streams that swell, or say so.
    "swells to gigabytes": _bytes(lambda paper: pdf_with([("/FlateDecode/FlateDecode", swollen(2 << 30))])),
    "drawing that swells": _bytes(lambda paper: _with(_stream(swollen(2 << 30), b"/Filter[/FlateDecode/FlateDecode]"), page=_PAGE[:-2] + b"/Contents 4 0 R>>")),
    "thousands of attachments": _bytes(lambda paper: pdf_with([("/FlateDecode", zlib.compress(b"{}" + b" " * 900_000))] * 5000)),
    "fifty thousand attachments": _bytes(lambda paper: pdf_with([("", b"{}")] * 50_000)),
    "attachment of lists in lists": _bytes(lambda paper: pdf_with([("/FlateDecode", zlib.compress(b"[" * 3_900_000))])),
    "attachment of many fields": _bytes(lambda paper: pdf_with([("/FlateDecode", zlib.compress(b"{" + b",".join(b'"%d":1' % at for at in range(300_000)) + b"}"))])),
    "attachment longer than it is": _bytes(lambda paper: pdf_with([("", b"{}")]).replace(b"/Length 2", b"/Length 9999999999")),
    "a hundred filters": _bytes(lambda paper: pdf_with([("/FlateDecode" * 100, b"x")])),
    "filters that are none": _bytes(lambda paper: pdf_with([("/ASCII85Decode/LZWDecode/RunLengthDecode/DCTDecode/JBIG2Decode/JPXDecode", b"x" * 999)])),
    "predictor of great width": _bytes(lambda paper: _with(_stream(zlib.compress(bytes(999)), b"/Filter/FlateDecode/DecodeParms<</Predictor 12/Columns 2147483647/Colors 99>>"), page=_PAGE[:-2] + b"/Contents 4 0 R>>")),
    "stream of objects counted beyond": _bytes(lambda paper: _object_stream(2_000_000_000, b"1 0 " * 99)),
    "stream of objects in itself": _bytes(lambda paper: _object_stream(9, b"4 0 4 0 4 0 <</Type/ObjStm/N 9/First 10>>")),
    "picture of great size": _bytes(lambda paper: _with(_stream(b"x", b"/Type/XObject/Subtype/Image/Width 99999/Height 99999/BitsPerComponent 8/ColorSpace/DeviceRGB"), _stream(b"/I Do"), page=_PAGE[:-2] + b"/Resources<</XObject<</I 4 0 R>>>>/Contents 5 0 R>>")),
    "drawing that draws itself": _bytes(lambda paper: _with(_stream(b"/I Do " * 1000, b"/Type/XObject/Subtype/Form/BBox[0 0 9 9]/Resources<</XObject<</I 4 0 R>>>>"), page=_PAGE[:-2] + b"/Resources<</XObject<</I 4 0 R>>>>/Contents 4 0 R>>")),
    # Locks, scripts and what is run.
    "locked": _bytes(lambda paper: _with(b"<</Filter/Standard/V 5/R 6/Length 256/P -4/O(x)/U(x)/OE(x)/UE(x)/Perms(x)>>").replace(b"/Root 1 0 R", b"/Root 1 0 R/Encrypt 4 0 R")),
    "locked as nobody does": _bytes(lambda paper: _with(b"<</Filter/Mine/V 99>>").replace(b"/Root 1 0 R", b"/Root 1 0 R/Encrypt 4 0 R")),
    "a script on opening": _bytes(lambda paper: _with(catalog=_CATALOG[:-2] + b"/OpenAction<</S/JavaScript/JS(while(1){})>>>>")),
    "a program on opening": _bytes(lambda paper: _with(catalog=_CATALOG[:-2] + b"/OpenAction<</S/Launch/F(/bin/sh)>>>>")),
    "a file fetched on opening": _bytes(lambda paper: _with(catalog=_CATALOG[:-2] + b"/OpenAction<</S/URI/URI(file:///etc/passwd)>>>>")),
    "a form of its own": _bytes(lambda paper: _with(_stream(b"<xdp/>"), catalog=_CATALOG[:-2] + b"/AcroForm<</XFA 4 0 R/Fields[]>>>>")),
    "escape codes in its title": _bytes(lambda paper: _with(b"<</Title(\x1b]0;mine\x07)/Creator(Ohmfolio)>>").replace(b"/Root 1 0 R", b"/Root 1 0 R/Info 4 0 R")),
    # Other shapes.
    "a web page of a number that is none": _bytes(lambda paper: b"<!DOCTYPE html><title>x ../../../etc-1</title>"),
    "a web page of sixty megabytes": _bytes(lambda paper: b"<!DOCTYPE html><title>x A-0001</title>" + b"a" * (60 << 20)),
    "a picture of nothing": _bytes(lambda paper: b"\x89PNG\r\n\x1a\n" + bytes(999)),
    "an archive": _bytes(lambda paper: b"PK\x03\x04" + bytes(999)),
}  # fmt: skip
