"""How texts that have one usual spelling are written, however they were typed."""

import re

_POSTCODE = re.compile(r"\s*(gir|[a-z]{1,2}\d[a-z\d]?)\s*(\d[a-z]{2})\s*", re.IGNORECASE)
"""A postcode of the United Kingdom: outward and inward part (Royal Mail's formats, from memory)."""
_CODE_MOST = 3
TYPE_LETTERS = "BCDEGIKLUZ"
"""Letters that stand alone as a type of a protective device, past ones among them (common practice, from memory)."""


def postcode(text: str) -> str:
    """`ls12 4qx` and `LS124QX` as `LS12 4QX`; what is no postcode of the United Kingdom stays as it is."""
    found = _POSTCODE.fullmatch(text)
    return f"{found[1]} {found[2]}".upper() if found else text


def letter_code(text: str) -> str:
    """A reference of a letter or a few, such as `c`, in capitals; anything longer stays as it is."""
    return text.upper() if len(text.strip()) <= _CODE_MOST else text


def years(text: str) -> str:
    """A figure alone with its unit: `30` as `30 years`; anything else stays as it is."""
    figure = text.strip()
    return f"{figure} year{'' if figure == '1' else 's'}" if figure.isascii() and figure.isdecimal() else text
