"""The last hand on a file of the engine: who made it, the place of its seal, and its bytes packed."""

from typing import Any

from storage.paper import seal
from storage.paper.mupdf import mupdf

MAKER = "Ohmfolio"
_TOOL = ("<xmp:CreatorTool>", "</xmp:CreatorTool>")


def packed(pdf: bytes, *, sealing: bool, signing: bool) -> tuple[bytes, int]:
    """The file made smaller and signed with our name, and its pages. The same bytes give the same bytes."""
    document = mupdf().open(stream=pdf, filetype="pdf")
    _name_maker(document)
    if sealing:
        seal.prepare(document, signing=signing)
    written: bytes = document.tobytes(garbage=1, deflate=True, no_new_id=True, use_objstms=1)
    return written, len(document)


def _name_maker(document: Any) -> None:
    """In the information and in the metadata alike: an archive file may not say two things of itself."""
    _, information = document.xref_get_key(-1, "Info")
    document.xref_set_key(int(information.split()[0]), "Creator", f"({MAKER})")
    said: str = document.get_xml_metadata()
    before, _, rest = said.partition(_TOOL[0])
    _, _, after = rest.partition(_TOOL[1])
    if rest:
        document.set_xml_metadata(f"{before}{_TOOL[0]}{MAKER}{_TOOL[1]}{after}")
