"""The record of a paper attached to its file, and read back from it."""

import hashlib
from dataclasses import dataclass
from datetime import datetime
from typing import Any


@dataclass(frozen=True)
class Attachment:
    """A file to go inside the PDF."""

    name: str
    """Plain letters, digits, dots and hyphens."""
    says: str
    content: bytes
    at: datetime


def attach(document: Any, attachment: Attachment, stamped: str) -> None:
    """Put it in as the source of the document. Written by hand: the library would put in the time of day."""
    content = attachment.content
    file = document.get_new_xref()
    checksum = hashlib.md5(content, usedforsecurity=False).hexdigest()
    document.update_object(
        file,
        f"<</Type/EmbeddedFile/Subtype/application#2Fjson/Params<</Size {len(content)}/ModDate({stamped})"
        f"/CheckSum<{checksum}>>>>>",
    )
    document.update_stream(file, content, new=True)
    spec = document.get_new_xref()
    document.update_object(
        spec,
        f"<</Type/Filespec/F({attachment.name})/UF({attachment.name})/Desc({attachment.says})"
        f"/AFRelationship/Source/EF<</F {file} 0 R/UF {file} 0 R>>>>",
    )
    catalog = document.pdf_catalog()
    document.xref_set_key(catalog, "Names/EmbeddedFiles", f"<</Names[({attachment.name}){spec} 0 R]>>")
    document.xref_set_key(catalog, "AF", f"[{spec} 0 R]")


def attached_to(document: Any) -> tuple[bytes, ...]:
    """What is attached to an open document, in the order of the file."""
    return tuple(bytes(document.embfile_get(at)) for at in range(document.embfile_count()))
