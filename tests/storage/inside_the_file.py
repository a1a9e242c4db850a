"""What can be changed inside a paper and not be seen on its pages, or be laid over them; each for another PDF library to do."""

import io
from collections.abc import Callable

import pikepdf
from pikepdf import Array, Dictionary, Name, String


def _read_aloud(key: str) -> Callable[[pikepdf.Pdf], None]:
    def edit(document: pikepdf.Pdf) -> None:
        cells = [
            each for each in document.objects if isinstance(each, Dictionary) and each.get("/Type") == Name.StructElem
        ]
        cells[5][key] = String("satisfactory")

    return edit


def _copied_as_others(document: pikepdf.Pdf) -> None:
    for each in document.objects:
        if isinstance(each, pikepdf.Stream) and b"begincmap" in (content := each.read_bytes()):
            each.write(content.replace(b"<0031>", b"<0037>"))


def _laid_over(document: pikepdf.Pdf) -> None:
    white = document.make_stream(b"1 1 1 rg 60 600 200 40 re f")
    white.stream_dict["/Type"], white.stream_dict["/Subtype"] = Name.XObject, Name.Form
    white.stream_dict["/BBox"] = Array([0, 0, 595, 842])
    document.pages[0].obj.Resources["/XObject"] = Dictionary(White=white)
    document.pages[0].contents_add(b"/White Do")


def _hidden_layer(document: pikepdf.Pdf) -> None:
    layer = document.make_indirect(Dictionary(Type=Name.OCG, Name=String("layer")))
    document.Root["/OCProperties"] = Dictionary(OCGs=Array([layer]), D=Dictionary(OFF=Array([layer])))
    document.pages[0].obj.Resources["/Properties"] = Dictionary(Layer=layer)
    document.pages[0].contents_add(b"/OC /Layer BDC", prepend=True)
    document.pages[0].contents_add(b"EMC")


def _fonts_swapped(document: pikepdf.Pdf) -> None:
    key = next(
        key
        for key in ("/FontFile2", "/FontFile3")
        for each in document.objects
        if isinstance(each, Dictionary) and key in each
    )
    faces = [each for each in document.objects if isinstance(each, Dictionary) and key in each]
    faces[0][key], faces[-1][key] = faces[-1][key], faces[0][key]


def _attached(document: pikepdf.Pdf) -> Array:
    return document.Root.Names.EmbeddedFiles.Names


def _renamed(document: pikepdf.Pdf) -> None:
    _attached(document)[1]["/UF"] = String("other.json")


def _bookmark(document: pikepdf.Pdf) -> None:
    with document.open_outline() as outline:
        outline.root[0].title = "Another certificate"


def _signature_field(document: pikepdf.Pdf) -> None:
    page = document.pages[0].obj
    field = document.make_indirect(
        Dictionary(Type=Name.Annot, Subtype=Name.Widget, FT=Name.Sig, T=String("x"), Rect=Array([0, 0, 0, 0]), P=page)
    )
    page["/Annots"] = Array([field])
    document.Root["/AcroForm"] = Dictionary(Fields=Array([field]), SigFlags=3)


def _page_labels(document: pikepdf.Pdf) -> None:
    document.Root["/PageLabels"] = Dictionary(Nums=Array([0, Dictionary(S=Name.r)]))


def _script(document: pikepdf.Pdf) -> None:
    script = Dictionary(S=Name.JavaScript, JS=String("1"))
    document.Root.Names["/JavaScript"] = Dictionary(Names=Array([String("a"), script]))


def page_in_an_update(pdf: bytes) -> bytes:
    """The drawing of the first page written anew behind the file, whose bytes stay as they are."""
    with pikepdf.open(io.BytesIO(pdf)) as document:
        contents, root = document.pages[0].Contents, document.Root.objgen[0]
        number = (contents if isinstance(contents, pikepdf.Stream) else contents[0]).objgen[0]
        size = int(document.trailer.Size)
    start = int(pdf[pdf.rindex(b"startxref") + 9 :].split()[0])
    drawn = b"%d 0 obj\n<</Length 0>>\nstream\n\nendstream\nendobj\n" % number
    table = b"xref\n%d 1\n%010d 00000 n \ntrailer\n<</Size %d/Root %d 0 R/Prev %d>>\n" % (
        number,
        len(pdf),
        size,
        root,
        start,
    )
    return pdf + drawn + table + b"startxref\n%d\n%%%%EOF\n" % (len(pdf) + len(drawn))


EDITS: dict[str, Callable[[pikepdf.Pdf], object]] = {
    "what is said instead of a picture": _read_aloud("/Alt"),
    "what is read aloud instead of a cell": _read_aloud("/ActualText"),
    "letters that copy as others": _copied_as_others,
    "another font behind the letters": _fonts_swapped,
    "a form laid over a page": _laid_over,
    "a page on a layer that does not show": _hidden_layer,
    "the name of what is attached": _renamed,
    "a bookmark": _bookmark,
    "other numbers of pages": _page_labels,
    "a script by name": _script,
    "an empty field for a signature": _signature_field,
}
