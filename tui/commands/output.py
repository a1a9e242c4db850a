"""Text and JSON that no terminal obeys, whatever a person's own text or a file name holds."""

import json
import re
import unicodedata
from collections.abc import Iterable, Iterator

_on_one_line = json.JSONEncoder(ensure_ascii=False).encode
_LEFT_BY_JSON = re.compile("[\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069]")


def as_json(value: object) -> str:
    """One JSON value; control characters are escaped."""
    text = json.dumps(value, ensure_ascii=False, indent=2)
    return _LEFT_BY_JSON.sub(_escaped, text)


def _escaped(found: re.Match[str]) -> str:
    return f"\\u{ord(found[0]):04x}"


def as_json_array(values: Iterable[object]) -> Iterator[str]:
    """The same for an array that is never held whole, one value to a line: its text in pieces."""
    begun = False
    for value in values:
        inner = _LEFT_BY_JSON.sub(_escaped, _on_one_line(value))
        yield f"{',' if begun else '['}\n  {inner}"
        begun = True
    yield "\n]" if begun else "[]"


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
