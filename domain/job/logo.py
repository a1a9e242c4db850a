"""The mark of a firm in its letterhead: kept with the firm, and in the record of each paper that bears it."""

import base64
import binascii
from enum import StrEnum
from typing import Annotated

from pydantic import Field, model_validator

from domain.job.plain_svg import SvgError, plain_svg
from domain.value import Line, Value, is_blank

LOGO_MAX = 48_000
"""Bytes of one, as it is kept."""
_CODED_MAX = (LOGO_MAX + 2) // 3 * 4
_SIDE_MAX = 1200
"""Points of a side of an image."""
_PNG = b"\x89PNG\r\n\x1a\n"
_CHUNKS = frozenset({b"IHDR", b"PLTE", b"IDAT", b"IEND"})
"""Parts of an image that may stand in one: what is seen, and nothing that a program wrote beside it."""


class LogoKind(StrEnum):
    """How a logo is drawn."""

    PNG = "png"
    SVG = "svg"


class LogoError(ValueError):
    """A file that cannot be taken as a logo; the message is one plain sentence for the person."""


class Logo(Value):
    """A logo, small and harmless: an image in PNG, or a drawing of plain shapes in SVG."""

    kind: LogoKind
    data: Annotated[str, Field(max_length=_CODED_MAX, repr=False)]
    """In base 64."""
    says: Annotated[Line, Field(min_length=1)]
    """What it shows; whoever cannot see it has this instead."""

    @model_validator(mode="after")
    def _is_what_it_says(self) -> "Logo":
        try:
            held = self.content
        except (binascii.Error, ValueError):
            raise ValueError("the logo is no base 64") from None
        if is_blank(self.says):
            raise ValueError("the logo does not say what it shows")
        if self.kind is LogoKind.PNG and not _is_small_png(held):
            raise ValueError("the logo is no small PNG")
        try:
            is_plain = self.kind is LogoKind.PNG or plain_svg(held) == held
        except SvgError as error:
            raise ValueError(str(error)) from None
        if not is_plain:
            raise ValueError("the logo is no SVG of plain shapes")
        return self

    @property
    def content(self) -> bytes:
        """The image or drawing."""
        return base64.b64decode(self.data, validate=True)


def logo_of(kind: LogoKind, content: bytes, says: str) -> Logo:
    """A logo of the bytes of a small PNG or a plain SVG."""
    if len(content) > LOGO_MAX:
        raise LogoError(f"It is larger than {LOGO_MAX // 1000} kB once it is made small; make it simpler")
    return Logo(kind=kind, data=base64.b64encode(content).decode(), says=says)


def _is_small_png(held: bytes) -> bool:
    """By its parts: each is there with its length, the first says its size, and nothing stands behind the last."""
    if not held.startswith(_PNG):
        return False
    names, at = list[bytes](), len(_PNG)
    while at + 12 <= len(held):
        length = int.from_bytes(held[at : at + 4])
        names.append(held[at + 4 : at + 8])
        at += 12 + length
    sides = (int.from_bytes(held[16:20]), int.from_bytes(held[20:24]))
    return (
        at == len(held)
        and bool(names)
        and (names[0], names[-1]) == (b"IHDR", b"IEND")
        and set(names) <= _CHUNKS
        and names.count(b"IEND") == names.count(b"IHDR") == 1
        and all(1 <= side <= _SIDE_MAX for side in sides)
    )
