"""The words of a text, folded and split as people search by them; and a text of several lines on one; and so many of a thing.

Kept by hand: what is typed must fold exactly as what logs hold was folded, for as long as they are kept, whatever a library
changes.
"""

import re
import unicodedata
from functools import lru_cache

WORD_MAX = 40
"""Longer words are kept and looked for by their beginning."""
_APOSTROPHES = str.maketrans(dict.fromkeys("'’‘ʼ`´"))
_UNMARKED = str.maketrans({"ø": "o", "đ": "d", "ð": "d", "ł": "l", "ħ": "h", "æ": "ae", "œ": "oe", "þ": "th"})
_TELEPHONE, _WHOLE_TELEPHONE = 6, 11
"""So many figures may be a telephone number, and are one with its country before it."""
_OURS = "44"
_SHORT = 200
"""Letters of a text whose words are worth remembering."""
_WORD = re.compile(r"[^\W_]+")


def folded(text: str) -> str:
    """A text without accents, capitals and apostrophes."""
    plain = unicodedata.normalize("NFKD", text.translate(_APOSTROPHES)).casefold()
    marked = unicodedata.normalize("NFKD", plain)
    return "".join(letter for letter in marked if not unicodedata.combining(letter)).translate(_UNMARKED)


def words_of(text: str) -> tuple[str, ...]:
    """The folded words of a text, in order."""
    # Of a large job every edit asks for the words of all circuits, and all but one are what they were.
    return _known_words_of(text) if len(text) <= _SHORT else _words_of(text)


def _words_of(text: str) -> tuple[str, ...]:
    return tuple(word[:WORD_MAX] for word in _WORD.findall(folded(text)))


_known_words_of = lru_cache(maxsize=4096)(_words_of)


def joined(text: str) -> str:
    """All words of a text as one, as people type postcodes and numbers."""
    return "".join(words_of(text))


def counted(count: int, thing: str) -> str:
    """`1 job`, `2 jobs`."""
    return f"{count} {thing}{'' if count == 1 else 's'}"


def capitalised(text: str) -> str:
    """A text as it opens a sentence or a line: its first letter large, all others as they are."""
    return text[:1].upper() + text[1:]


def uncapitalised(text: str) -> str:
    """A sentence as it goes on behind a colon: its first letter small, unless its first word is one of capitals, such as PDF."""
    return text if text[1:2].isupper() else text[:1].lower() + text[1:]


def on_one_line(text: str) -> str:
    """An address of several lines with commas between them."""
    parts = (part.strip().rstrip(",") for part in text.splitlines())
    return ", ".join(part for part in parts if part)


def telephone(text: str) -> str:
    """The figures of a telephone number, one of this country with its 0 first however its code was typed; "" for none."""
    figures = "".join(letter for letter in text if letter.isdecimal()).removeprefix("00")
    if figures.startswith(_OURS) and len(figures) >= _WHOLE_TELEPHONE:
        figures = f"0{figures.removeprefix(_OURS).removeprefix('0')}"
    return figures if len(figures) >= _TELEPHONE else ""
