"""Text and JSON that no terminal obeys, whatever a person's own text or a file name holds."""

import json
import re
import unicodedata

_DIRECTION = "\u202a-\u202e\u2066-\u2069"
_OBEYED = re.compile(f"[\x00-\x1f\x7f-\x9f{_DIRECTION}]")
_LEFT_BY_JSON = re.compile(f"[\x7f-\x9f{_DIRECTION}]")


def visible(text: str, *, newlines: bool = False) -> str:
    """Control characters written out, so that they are seen and do nothing."""
    return _OBEYED.sub(lambda found: "\n" if newlines and found[0] == "\n" else _written_out(found[0]), text)


def as_json(value: object) -> str:
    """One JSON value; control characters are escaped."""
    text = json.dumps(value, ensure_ascii=False, indent=2)
    return _LEFT_BY_JSON.sub(lambda found: f"\\u{ord(found[0]):04x}", text)


def one_line(text: str) -> str:
    """Running text on one line."""
    return " ".join(text.split())


def columns(rows: list[tuple[str, ...]], widths: tuple[int, ...]) -> str:
    """Rows in columns; the last column runs free."""
    return "\n".join(
        "  ".join(
            [*(_padded(cell, width) for cell, width in zip(row, widths, strict=False)), *row[len(widths) :]]
        ).rstrip()
        for row in rows
    )


def _padded(cell: str, width: int) -> str:
    wide = sum(2 if unicodedata.east_asian_width(letter) in "WF" else 1 for letter in cell)
    return cell + " " * (width - wide)


def _written_out(letter: str) -> str:
    return f"\\x{ord(letter):02x}" if ord(letter) < 256 else f"\\u{ord(letter):04x}"
