"""The one function that makes a text safe for a terminal: whatever somebody put into it, a terminal only shows it.

Escape codes set titles, fill clipboards and have a terminal answer as if a person typed; controls of direction make one text
look like another. Commands write them out, so that they are seen; on screens they are left out, for they take up no cell.
"""

import re

_OBEYED = re.compile("[\x00-\x1f\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069]")


def safe_text(text: str, *, newlines: bool = False, written_out: bool = True) -> str:
    """A text in which no letter is obeyed; `newlines` leaves line ends, `written_out` shows the rest as escapes in letters."""
    if text.isprintable() or (newlines and text.replace("\n", "").isprintable()):
        return text
    return _OBEYED.sub(
        lambda found: "\n" if newlines and found[0] == "\n" else _written_out(found[0]) if written_out else "", text
    )


def _written_out(letter: str) -> str:
    return f"\\x{ord(letter):02x}" if ord(letter) < 256 else f"\\u{ord(letter):04x}"
