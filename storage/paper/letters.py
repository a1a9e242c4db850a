"""What a text is compared by once it stands on paper: its letters, less the blanks between them."""

import unicodedata

_JOINED = (("\u0900", "\u0dff"), ("\u1000", "\u109f"), ("\u1780", "\u17ff"))
"""Indic, Burmese and Khmer letters: several share one shape."""


def squashed(text: str) -> str:
    """The text without blanks; nothing else is left out. An accent counts the same on its letter or after it."""
    return unicodedata.normalize("NFC", "".join(text.split()))


def runs_leftwards(letter: str) -> bool:
    """Arabic and Hebrew letters."""
    return unicodedata.bidirectional(letter) in {"R", "AL", "AN"}


def is_joined(letter: str) -> bool:
    """A letter that shares its shape with its neighbours."""
    return any(first <= letter <= last for first, last in _JOINED)


def has_accents(text: str) -> bool:
    """Accents that stay beside their letter: the two are one shape, or several that each tell the whole."""
    return not text.isascii() and any(unicodedata.combining(letter) for letter in text)


def is_cut_anywhere(text: str) -> bool:
    """A word of it can be broken between any two letters: they do not change shape with their neighbours."""
    return text.isascii() or not any(runs_leftwards(letter) or is_joined(letter) for letter in text)
