"""The last hand on a file of the engine: who made it, the place of its seal, and its bytes packed."""

import re

from storage.paper import seal
from storage.paper.engine_file import EngineFile

MAKER = "Ohmfolio"
_CREATOR = re.compile(rb"(.*)/Creator\([^)]*\)", re.DOTALL)
"""The last of them: those before it are within names that people gave themselves."""
_TOOL = re.compile(rb"(<xmp:CreatorTool>)[^<]*(</xmp:CreatorTool>)")


def packed(pdf: bytes, *, sealing: bool, signing: bool) -> tuple[bytes, int]:
    """The file made smaller and signed with our name, and its pages. The same bytes give the same bytes."""
    file = EngineFile.of(pdf)
    _name_maker(file)
    file.squeeze()
    if sealing:
        seal.prepare(file, signing=signing)
    return file.written(), len(file.pages())


def _name_maker(file: EngineFile) -> None:
    """In the information and in the metadata alike: an archive file may not say two things of itself."""
    information = file.named(b"Info", file.trailer)
    file.plain[information] = _CREATOR.sub(rb"\g<1>/Creator(%b)" % MAKER.encode(), file.plain[information])
    metadata = file.named(b"Metadata", file.root)
    file.put_stream(metadata, _TOOL.sub(rb"\g<1>%b\g<2>" % MAKER.encode(), file.content(metadata)))
