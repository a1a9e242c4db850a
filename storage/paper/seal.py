"""The seal of a file: its own SHA-256 printed in it, with the digits of the seal counted as 0.

The seal is the one content stream that is stored, not squeezed, so that its digits stand in plain sight among the bytes of
the file. They stand there twice: in a comment, and as the glyphs that show on the page. The checksum at the end of the
stream follows from them.
"""

import hashlib
import re
import zlib
from enum import Enum
from typing import Any, NamedTuple

from storage.paper.mupdf import mupdf
from storage.paper.paper_error import PaperError
from storage.paper.press import Spot
from storage.paper.style import INK

_DIGITS = "0123456789abcdef"
UNSEALED = _DIGITS * 4
"""Stands for the seal until it is known; it holds every digit, so that the font keeps them all."""
_SIZE = 9.0
_MARK = b"% Ohmfolio seal"
_CONTENT = re.compile(
    rb"%b, glyphs ([0-9A-Fa-f]{64}), ([0-9a-f]{64})\n[^<>]{0,200}<([0-9A-Fa-f]{256})>\]TJ\nET\nQ\n" % _MARK
)
_CHECKSUM = 4
"""Bytes of the checksum that ends a squeezed stream."""


class Holds(Enum):
    """Whether the seal of a file holds."""

    YES = "yes"
    NO = "no"
    ABSENT = "there is no seal, or what is left of one cannot be read"


class _FoundSeal(NamedTuple):
    """A seal among the bytes of a file; spans are in those bytes."""

    content: tuple[int, int]
    said: tuple[int, int]
    drawn: tuple[int, int]
    glyphs: dict[str, bytes]

    @property
    def checksum(self) -> tuple[int, int]:
        """Where the checksum of the stream stands."""
        return self.content[1], self.content[1] + _CHECKSUM


def draw_unsealed(page: Any, spot: Spot) -> int:
    """Write the stand-in digits at their place; hands back the content stream they are in."""
    library = mupdf()
    writer = library.TextWriter(page.rect, color=INK)
    at = library.Point(spot.x0, spot.y1 - _SIZE * 0.3)
    writer.append(at, UNSEALED, font=library.Font("helv"), fontsize=_SIZE)
    writer.write_text(page)
    return page.get_contents()[-1]


def prepare(document: Any, stream: int) -> None:
    """Store the stream of the seal as it is; call it once all else is done, fonts above all."""
    drawing: bytes = document.xref_stream(stream)
    drawn = re.search(rb"<([0-9A-Fa-f]{256})>", drawing)
    assert drawn is not None
    content = b"%b, glyphs %b, %b\n%b" % (_MARK, drawn[1][:64], UNSEALED.encode(), drawing)
    document.update_stream(stream, zlib.compress(content, level=0), compress=False)
    document.xref_set_key(stream, "Filter", "/FlateDecode")


def sealed(pdf: bytes) -> bytes:
    """The file with its own hash in the place of the stand-in."""
    found = _found(pdf)
    if found is None:
        raise PaperError("The paper cannot be sealed: its seal did not come out as one line")
    digits = _hash_without(pdf, found)
    done = _put(pdf, found.said, digits.encode())
    done = _put(done, found.drawn, _drawn(digits, found))
    return _put(done, found.checksum, _checksum(done, found))


def bears_mark(pdf: bytes) -> bool:
    """Something in the file says that it was sealed once."""
    return _MARK in pdf


def seal_of(pdf: bytes) -> str:
    """The seal a file bears, whether it holds or not; "" for none."""
    found = _found(pdf)
    return _at(pdf, found.said).decode() if found else ""


def holds(pdf: bytes) -> Holds:
    """Whether the file is, byte for byte, the one that was sealed."""
    found = _found(pdf)
    if found is None:
        return Holds.ABSENT
    digits = seal_of(pdf)
    agrees = (
        _at(pdf, found.drawn) == _drawn(digits, found)
        and _at(pdf, found.checksum) == _checksum(pdf, found)
        and _hash_without(pdf, found) == digits
    )
    return Holds.YES if agrees else Holds.NO


def _found(pdf: bytes) -> _FoundSeal | None:
    seals = list(_CONTENT.finditer(pdf))
    if len(seals) != 1:
        return None
    (seal,) = seals
    glyphs = {digit: seal[1][4 * at : 4 * at + 4] for at, digit in enumerate(_DIGITS)}
    return _FoundSeal(seal.span(), seal.span(2), seal.span(3), glyphs)


def _hash_without(pdf: bytes, found: _FoundSeal) -> str:
    counted = pdf
    for span in (found.said, found.drawn, found.checksum):
        counted = _put(counted, span, b"0" * (span[1] - span[0]))
    return hashlib.sha256(counted).hexdigest()


def _drawn(digits: str, found: _FoundSeal) -> bytes:
    return b"".join(found.glyphs[digit] for digit in digits)


def _checksum(pdf: bytes, found: _FoundSeal) -> bytes:
    return zlib.adler32(_at(pdf, found.content)).to_bytes(_CHECKSUM, "big")


def _at(pdf: bytes, span: tuple[int, int]) -> bytes:
    return pdf[span[0] : span[1]]


def _put(pdf: bytes, span: tuple[int, int], other: bytes) -> bytes:
    return pdf[: span[0]] + other + pdf[span[1] :]
