"""The seal of a file: its own SHA-256 printed in it, with the digits of the seal counted as 0, and the log's signature over it.

The seal is the one content stream that is stored, not squeezed, so that its digits stand in plain sight among the bytes of
the file. They stand there twice: in a comment, and as the glyphs that show on the page. The checksum at the end of the
stream follows from them. Where the log has a key, its signature stands in a second comment, and counts as 0 as well: it can
be put in once the file is made, by whoever holds the key. Files of the engine before this one end the stream with two operators more.
"""

import hashlib
import re
import zlib
from collections.abc import Iterator
from enum import Enum
from typing import Any, NamedTuple

from storage.paper.paper_error import PaperError

_DIGITS = "0123456789abcdef"
UNSEALED = _DIGITS * 4
"""Stands for the seal until it is known; it holds every digit, so that the font keeps them all."""
_MARK = b"% Ohmfolio seal"
_SIGNED = b"% signed "
_UNSIGNED = b"0" * 128
_CONTENT = re.compile(
    rb"%b, glyphs ([0-9A-Fa-f]{64}), ([0-9a-f]{64})\n(?:%b([0-9a-f]{128})\n)?"
    rb"[^<>]{0,200}<([0-9A-Fa-f]{256})>\]TJ\n(?:ET\nQ\n)?" % (_MARK, _SIGNED)
)
_SHOWN = re.compile(rb"\[\(((?:\\.|[^\\()])+)\)\]TJ\n", re.DOTALL)
"""A text as the engine shows it, where its letters stand at their natural distance."""
_ESCAPED = re.compile(rb"\\([0-7]{3}|.)", re.DOTALL)
_ESCAPES = {b"n": b"\n", b"r": b"\r", b"t": b"\t", b"b": b"\b", b"f": b"\f"}
_END = re.compile(rb"%%EOF\r?\n?")
_ENDS_MAX = 4
"""Ends of a file within a file that are looked at: one, and one for each time something was put behind it."""
_CHECKSUM = 4
"""Bytes of the checksum that ends a squeezed stream."""


class SealCheck(Enum):
    """Whether the seal of a file holds."""

    YES = "yes"
    NO = "no"
    ABSENT = "there is no seal, or what is left of one cannot be read"


class _FoundSeal(NamedTuple):
    """A seal among the bytes of a file; spans are in those bytes."""

    content: tuple[int, int]
    said: tuple[int, int]
    signature: tuple[int, int] | None
    drawn: tuple[int, int]
    glyphs: dict[str, bytes]

    @property
    def checksum(self) -> tuple[int, int]:
        """Where the checksum of the stream stands."""
        return self.content[1], self.content[1] + _CHECKSUM


def prepare(document: Any, *, signing: bool) -> None:
    """Store the stand-in digits in a stream of their own, as they are; call it once all else is done.

    `signing` leaves room for a signature.
    """
    for page in reversed(range(len(document))):
        (contents,) = document[page].get_contents()
        drawing: bytes = document.xref_stream(contents)
        if place := next(_stand_ins(drawing), None):
            _set_apart(document, document[page].xref, contents, drawing, place, signing=signing)
            return
    raise PaperError("The paper cannot be sealed: its seal did not come out as one line")


def _stand_ins(drawing: bytes) -> Iterator[re.Match[bytes]]:
    """Texts of 64 glyphs that are 16 of their own, four times over."""
    for shown in _SHOWN.finditer(drawing):
        glyphs = _unescaped(shown[1])
        first = glyphs[: len(glyphs) // 4]
        if len(glyphs) == 2 * len(UNSEALED) and glyphs == first * 4 and len(set(_pairs(first))) == len(_DIGITS):
            yield shown


def _pairs(glyphs: bytes) -> list[bytes]:
    return [glyphs[at : at + 2] for at in range(0, len(glyphs), 2)]


def _unescaped(text: bytes) -> bytes:
    def letter(escape: re.Match[bytes]) -> bytes:
        code = escape[1]
        return bytes([int(code, 8)]) if len(code) == 3 else _ESCAPES.get(code, code)

    return _ESCAPED.sub(letter, text)


def _set_apart(
    document: Any, page: int, contents: int, drawing: bytes, shown: re.Match[bytes], *, signing: bool
) -> None:
    drawn = _unescaped(shown[1]).hex().upper().encode()
    room = b"%b%b\n" % (_SIGNED, _UNSIGNED) if signing else b""
    sealing = b"%b, glyphs %b, %b\n%b[<%b>]TJ\n" % (_MARK, drawn[:64], UNSEALED.encode(), room, drawn)
    document.update_stream(contents, drawing[: shown.start()])
    streams = [contents, _added(document, sealing, squeeze=False), _added(document, drawing[shown.end() :])]
    document.xref_set_key(page, "Contents", f"[{' '.join(f'{stream} 0 R' for stream in streams)}]")


def _added(document: Any, content: bytes, *, squeeze: bool = True) -> int:
    """A new stream, its content squeezed or, within the same wrapping, as it is; its number."""
    number: int = document.get_new_xref()
    document.update_object(number, "<<>>")
    document.update_stream(number, zlib.compress(content, 9 if squeeze else 0), new=True, compress=False)
    document.xref_set_key(number, "Filter", "/FlateDecode")
    return number


def sealed(pdf: bytes) -> bytes:
    """The file with its own hash in the place of the stand-in."""
    found = _found(pdf)
    if found is None:
        raise PaperError("The paper cannot be sealed: its seal did not come out as one line")
    digits = _hash_without(pdf, found)
    done = _put(pdf, found.said, digits.encode())
    done = _put(done, found.drawn, _drawn(digits, found))
    return _put(done, found.checksum, _checksum(done, found))


def with_signature(pdf: bytes, signature: str) -> bytes:
    """The sealed file with a signature in the room left for it; its seal stays what it is."""
    found = _found(pdf)
    if found is None or found.signature is None or len(signature) != len(_UNSIGNED):
        raise PaperError("The paper cannot be signed: there is no room for a signature beside its seal")
    done = _put(pdf, found.signature, signature.encode())
    return _put(done, found.checksum, _checksum(done, found))


def without_signature(pdf: bytes) -> bytes:
    """The file as it was before it was signed; any other as it is."""
    found = _found(pdf)
    return with_signature(pdf, _UNSIGNED.decode()) if found and found.signature else pdf


def signature_of(pdf: bytes) -> str:
    """The signature a file bears beside its seal, whether it holds or not; "" for none."""
    found = _found(pdf)
    said = _at(pdf, found.signature) if found and found.signature else _UNSIGNED
    return "" if said == _UNSIGNED else said.decode()


def bears_mark(pdf: bytes) -> bool:
    """Something in the file says that it was sealed once."""
    return _MARK in pdf


def seal_of(pdf: bytes) -> str:
    """The seal a file bears, whether it holds or not; "" for none."""
    found = _found(pdf)
    return _at(pdf, found.said).decode() if found else ""


def holds(pdf: bytes) -> SealCheck:
    """Whether the file is, byte for byte, the one that was sealed."""
    found = _found(pdf)
    if found is None:
        return SealCheck.ABSENT
    digits = seal_of(pdf)
    agrees = (
        _at(pdf, found.drawn) == _drawn(digits, found)
        and _at(pdf, found.checksum) == _checksum(pdf, found)
        and _hash_without(pdf, found) == digits
    )
    return SealCheck.YES if agrees else SealCheck.NO


def issued_part(pdf: bytes) -> bytes:
    """The first bytes of a file that are a whole paper by its seal, where others stand behind them; b"" where none are."""
    ends = [found.end() for found, _ in zip(_END.finditer(pdf), range(_ENDS_MAX), strict=False)]
    return next((pdf[:end] for end in ends if end < len(pdf) and holds(pdf[:end]) is SealCheck.YES), b"")


def _found(pdf: bytes) -> _FoundSeal | None:
    seals = list(_CONTENT.finditer(pdf))
    if len(seals) != 1:
        return None
    (seal,) = seals
    glyphs = {digit: seal[1][4 * at : 4 * at + 4] for at, digit in enumerate(_DIGITS)}
    return _FoundSeal(seal.span(), seal.span(2), seal.span(3) if seal[3] else None, seal.span(4), glyphs)


def _hash_without(pdf: bytes, found: _FoundSeal) -> str:
    counted = pdf
    for span in (found.said, found.signature, found.drawn, found.checksum):
        if span:
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
