"""A real paper with one thing changed in it by a general library, by what was changed: none of them is the paper that was issued."""

import zlib
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

from storage.paper.mupdf import mupdf
from tests.storage.hostile_files import written

Put = Callable[[Path, bytes], object]
_NAMES = ("../../../tmp/x", "/etc/passwd", "\x1b]0;mine\x07", "\u202egnp.exe", "a\nb", "A-0002.json" * 900, "C:\\x", "")


def _edited(change: Callable[[Any], object], **saving: Any) -> Put:
    """The paper, opened, changed and written anew."""

    def put(path: Path, paper: bytes) -> None:
        document = mupdf().open(stream=paper, filetype="pdf")
        change(document)
        path.write_bytes(document.tobytes(**saving))

    return put


def _added(change: Callable[[Any], object]) -> Put:
    """The paper, byte for byte, with the change behind it."""

    def put(path: Path, paper: bytes) -> None:
        path.write_bytes(paper)
        document = mupdf().open(path)
        change(document)
        document.saveIncr()

    return put


def _record(document: Any) -> bytes:
    return bytes(document.embfile_get(0))


def _attach(document: Any, body: bytes, name: str = "another.json") -> None:
    document.embfile_add(name, body, filename=name)


def _swap(change: Callable[[bytes], bytes]) -> Callable[[Any], object]:
    def swap(document: Any) -> None:
        held = range(1, document.xref_length())
        (at,) = (each for each in held if document.xref_get_key(each, "Type")[1] == "/EmbeddedFile")
        document.update_stream(at, change(_record(document)))

    return swap


def _metadata(**said: str) -> Callable[[Any], object]:
    return lambda document: document.set_metadata({**document.metadata, **said})


def _key(of: str, value: str) -> Callable[[Any], object]:
    return lambda document: document.xref_set_key(document.pdf_catalog(), of, value)


def _overprint(document: Any) -> None:
    document[0].insert_text((72, 72), "Satisfactory")


def _cover(document: Any) -> None:
    document[0].draw_rect((50, 50, 400, 400), color=(1, 1, 1), fill=(1, 1, 1))


def _blank(document: Any) -> None:
    for page in document:
        page.clean_contents()
        document.update_stream(page.get_contents()[0], b" ")


def _linked(document: Any) -> None:
    document[0].insert_link({"kind": 2, "from": mupdf().Rect(0, 0, 99, 99), "uri": "file:///etc/passwd"})


def _outline(depth: int) -> Callable[[Any], object]:
    return lambda document: document.set_toc([[at + 1, f"{at}", 1] for at in range(depth)])


def _filters(names: str, body: bytes) -> Put:
    said = f"<</Type/EmbeddedFile/Filter[{names}]/Length {len(body)}>>stream\n".encode()
    return lambda path, paper: path.write_bytes(_holding(said + body + b"\nendstream"))


def _holding(attached: bytes, catalog: bytes = b"") -> bytes:
    return written(
        [
            b"<</Type/Catalog/Pages 2 0 R/Names<</EmbeddedFiles<</Names[(x)4 0 R]>>>>%b>>" % catalog,
            b"<</Type/Pages/Kids[3 0 R]/Count 1>>",
            b"<</Type/Page/Parent 2 0 R/MediaBox[0 0 99 99]>>",
            b"<</Type/Filespec/F(x)/UF(x)/EF<</F 5 0 R>>>>",
            attached,
        ]
    )


def _stream(body: bytes, said: bytes = b"") -> bytes:
    return b"<</Type/EmbeddedFile%b/Length %d>>stream\n%b\nendstream" % (said, len(body), body)


def _put(made: Callable[[bytes], bytes]) -> Put:
    return lambda path, paper: path.write_bytes(made(paper))


def _swollen(times: int) -> bytes:
    body = bytes(64 << 20)
    for _ in range(times):
        body = zlib.compress(body, 9)
    return body


CRAFTED_PAPERS: Mapping[str, Put] = {
    # The record.
    "opened and written anew": _edited(lambda document: None),
    "written anew, tidied": _edited(lambda document: None, garbage=4, deflate=True, clean=True),
    "a letter of the record": _edited(_swap(lambda body: body.replace(b"C2", b"C3"))),
    "a letter of the record, behind it": _added(_swap(lambda body: body.replace(b"C2", b"C3"))),
    "the record of another number": _edited(_swap(lambda body: body.replace(b"A-0002", b"A-0001"))),
    "the record of a number of nobody": _edited(_swap(lambda body: body.replace(b"A-0002", b"Z-9999"))),
    "a record with an escape code for a number": _edited(_swap(lambda body: body.replace(b"A-0002", b"A-0002\\u001b[2J"))),
    "the record cut": _edited(_swap(lambda body: body[:-9])),
    "the record twice in itself": _edited(_swap(lambda body: body * 2)),
    "the record with a blank behind it": _edited(_swap(lambda body: body + b" ")),
    "the record with a field twice": _edited(_swap(lambda body: body.replace(b'{"', b'{"number":"A-0002","', 1))),
    "lists in lists for a record": _edited(_swap(lambda body: b"[" * 900_000)),
    "a record of great size": _edited(_swap(lambda body: b" " * 60_000_000 + body)),
    "no record": _edited(lambda document: document.embfile_del(0)),
    "two records, the true one first": _edited(lambda document: _attach(document, _record(document).replace(b"C2", b"C3"))),
    "two records, the true one last": _edited(lambda document: (body := _record(document), document.embfile_del(0), _attach(document, body.replace(b"C2", b"C3"), "a"), _attach(document, body, "z"))),
    "another file beside the record": _added(lambda document: _attach(document, b"MZ\x90\0", "setup.exe")),
    "four records": _edited(lambda document: [_attach(document, _record(document), f"{at}.json") for at in range(3)]),
    **{f"a file beside it named {name[:12]!r}": _edited(lambda document, name=name: _attach(document, b"{}", name)) for name in _NAMES[:-1]},
    # What it says of itself.
    "another title": _edited(_metadata(title="Electrical Installation Certificate A-0001")),
    "another title, behind it": _added(_metadata(title="Certificate A-0009")),
    "a title with an escape code": _edited(_metadata(title="\x1b]0;mine\x07\x1b[2J")),
    "a title of great length": _edited(_metadata(title="x" * 500_000)),
    "another maker": _edited(_metadata(creator="Somebody", producer="Something")),
    "called a draft": _edited(_metadata(title="DRAFT Electrical Installation Certificate A-0002")),
    "another day": _edited(_metadata(creationDate="D:19990101000000Z", modDate="D:99991231235959-23'59")),
    # What it shows.
    "something printed over it": _edited(_overprint),
    "something printed over it, behind it": _added(_overprint),
    "something covered": _added(_cover),
    "nothing on its pages": _edited(_blank),
    "a page taken out": _edited(lambda document: document.delete_page(0)),
    "a page put in": _added(lambda document: document.new_page(0)),
    "pages in another order": _edited(lambda document: document.move_page(0)),
    "a page turned": _added(lambda document: document[0].set_rotation(90)),
    "pages of another paper": _edited(lambda document: document.insert_pdf(document.__class__(stream=document.tobytes(), filetype="pdf"))),
    "a page of no size": _edited(lambda document: document.xref_set_key(document[0].xref, "MediaBox", "[0 0 0 0]")),
    "a page of great size": _edited(lambda document: document.xref_set_key(document[0].xref, "MediaBox", "[0 0 1e30 1e30]")),
    "a page that is its own parent": _edited(lambda document: document.xref_set_key(document[0].xref, "Parent", f"{document[0].xref} 0 R")),
    "a note on it": _added(lambda document: document[0].add_text_annot((72, 72), "Void")),
    "a field in it": _added(lambda document: document[0].add_freetext_annot((72, 72, 200, 200), "Pass")),
    "a link to a file": _added(_linked),
    # What runs, hides, or never ends.
    "something that runs when it is opened": _edited(_key("OpenAction", "<</S/JavaScript/JS(app.alert(1))>>")),
    "a program it starts": _edited(_key("OpenAction", "<</S/Launch/F(/bin/sh)>>")),
    "a form": _edited(_key("AcroForm", "<</Fields[]/XFA(x)/NeedAppearances true>>")),
    "layers hidden": _edited(_key("OCProperties", "<</OCGs[]/D<</BaseState/OFF>>>>")),
    "another language": _edited(_key("Lang", "(xx)")),
    "an outline a thousand deep": _edited(_outline(1000)),
    "an outline in a circle": _edited(_key("Outlines", "<</First 1 0 R/Last 1 0 R/Count 99>>")),
    "a tree of names in a circle": _put(lambda paper: _holding(_stream(b"{}")).replace(b"<</Names[(x)4 0 R]>>", b"<</Kids[1 0 R]>>    ")),
    "locked by a word": _edited(lambda document: None, encryption=4, user_pw="x", owner_pw="y"),
    "locked by no word": _edited(lambda document: None, encryption=4, owner_pw="y"),
    "locked in the old way": _edited(lambda document: None, encryption=1, user_pw="x"),
    # Attachments squeezed many times over.
    **{f"squeezed {times} times": _filters("/FlateDecode " * times, _swollen(times)) for times in (1, 2, 4)},
    "squeezed a hundred times, they say": _filters("/FlateDecode " * 100, _swollen(1)),
    "letters for bytes, hundreds of times": _filters("/ASCIIHexDecode " * 500, b"3" * 90_000),
    "runs of bytes": _filters("/RunLengthDecode " * 3, b"\x81\0" * 400_000),
    "words of bytes": _filters("/LZWDecode /FlateDecode", zlib.compress(b"\x80\x0b\x60\x50\x22\x0c\x0c\x85\x01" * 900_000)),
    "a filter of no name": _filters("/Nothing", b"{}"),
    "a filter for pictures": _filters("/JBIG2Decode", bytes(99_999)),
    "another filter for pictures": _filters("/JPXDecode", bytes(99_999)),
    "lines taken from each other": _put(lambda paper: _holding(_stream(zlib.compress(bytes(9_000_000)), b"/Filter/FlateDecode/DecodeParms<</Predictor 12/Columns 2147483647/Colors 32/BitsPerComponent 16>>"))),
    "lines of less than nothing": _put(lambda paper: _holding(_stream(zlib.compress(bytes(9_000)), b"/Filter/FlateDecode/DecodeParms<</Predictor 15/Columns -1>>"))),
    "its length in itself": _put(lambda paper: _holding(b"<</Type/EmbeddedFile/Length 5 0 R>>stream\n{}\nendstream")),
    "a digest that is not its own": _put(lambda paper: _holding(_stream(b"{}", b"/Params<</Size 99999999999/CheckSum<00000000000000000000000000000000>>>"))),
    "an attachment that is a page": _put(lambda paper: _holding(_stream(b"{}")).replace(b"/EF<</F 5 0 R>>", b"/EF<</F 3 0 R>>")),
    "an attachment that is itself": _put(lambda paper: _holding(_stream(b"{}")).replace(b"/EF<</F 5 0 R>>", b"/EF<</F 4 0 R>>")),
    "an attachment elsewhere": _put(lambda paper: _holding(_stream(b"", b"/F(/etc/passwd)"))),
}  # fmt: skip
