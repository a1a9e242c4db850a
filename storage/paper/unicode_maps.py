"""Character maps of the embedded fonts put right, so that search and copying find what is seen."""

import re
from functools import cache
from typing import Any

# Joined letters that come back from a page as the letters they join.
_LIGATURES = {0xFB00: "ff", 0xFB01: "fi", 0xFB02: "fl", 0xFB03: "ffi", 0xFB04: "ffl"}
_HEX = r"<([0-9A-Fa-f]+)>"
_BLOCK = re.compile(r"begin(bfchar|bfrange)(.*?)end\1", re.DOTALL)
_PAIR = re.compile(rf"{_HEX}\s*{_HEX}")
_RANGE = re.compile(rf"{_HEX}\s*{_HEX}\s*(?:{_HEX}|\[(.*?)\])", re.DOTALL)


def repair_unicode_maps(document: Any) -> None:
    """Write each map anew: ligatures as their letters, letters beyond the basic plane as surrogate pairs."""
    for xref in range(1, document.xref_length()):
        if not document.xref_is_stream(xref):
            continue
        stream: bytes = document.xref_stream(xref) or b""
        if b"begincmap" in stream:
            document.update_stream(xref, _rewritten(stream.decode("latin-1")).encode("latin-1"))


def _rewritten(source: str) -> str:
    start = source.index("begin", source.index("endcodespacerange"))
    end = source.index("endcmap")
    pairs = sorted(_pairs(source).items())
    blocks = [
        f"{len(part)} beginbfchar\n" + "".join(f"<{glyph:04X}><{target}>\n" for glyph, target in part) + "endbfchar\n"
        for part in (pairs[at : at + 100] for at in range(0, len(pairs), 100))
    ]
    return source[:start].rsplit("\n", 1)[0] + "\n" + "".join(blocks) + source[end:]


def _pairs(source: str) -> dict[int, str]:
    pairs: dict[int, str] = {}
    for kind, body in _BLOCK.findall(source):
        if kind == "bfchar":
            pairs |= {int(glyph, 16): _target(code) for glyph, code in _PAIR.findall(body)}
            continue
        for first, last, code, listed in _RANGE.findall(body):
            glyphs = range(int(first, 16), int(last, 16) + 1)
            codes = re.findall(_HEX, listed) if listed else [f"{int(code, 16) + at:04X}" for at in range(len(glyphs))]
            pairs |= {glyph: _target(each) for glyph, each in zip(glyphs, codes, strict=False)}
    return pairs


@cache
def _target(code: str) -> str:
    # A target of four figures a letter is UTF-16 already; five or six figures are one letter beyond the basic plane.
    text = chr(int(code, 16)) if len(code) in {5, 6} else bytes.fromhex(code).decode("utf-16-be", "replace")
    return text.translate(_LIGATURES).encode("utf-16-be").hex().upper()
