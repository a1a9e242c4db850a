"""Words typed with one letter wrong, one too many, one too few, or two swapped.

Kept by hand: a library of distances would compare a word with every word of the log; the index hands over the few that
share a gap with it, and what is left to compare is this.
"""

from domain import misspelling

_HEARD = (
    *(("ph", "f"), ("ck", "k"), ("qu", "kw"), ("gh", "g"), ("sch", "sh"), ("tch", "ch"), ("ce", "se"), ("ci", "si")),
    *(("cy", "sy"), ("ch", "\0"), ("c", "k"), ("z", "s"), ("x", "ks")),
)
"""What is heard alike in English; common practice of lists of names."""
_UNHEARD = frozenset("aeiouywh")
_LEAST_HEARD = 3


def heard_gaps_of(word: str) -> frozenset[str]:
    """A word, the word with each of its letters left out, and how it is heard. Words one slip apart share one of these."""
    heard = _heard(word)
    return misspelling.gaps_of(word) | frozenset({f"~{heard}"} if heard else ())


def sounds_alike(typed: str, meant: str) -> bool:
    """Written otherwise as one hears it: Phillips and Filips, Pennhallo and Penhallow."""
    return typed != meant and (heard := _heard(typed)) is not None and heard == _heard(meant)


def _heard(word: str) -> str | None:
    """The consonants as they are heard, each once where it is doubled; None for a word too short to go by them."""
    for written, heard in _HEARD:
        word = word.replace(written, heard)
    kept = word[:1] + "".join(letter for letter in word[1:] if letter not in _UNHEARD)
    once = "".join(letter for at, letter in enumerate(kept) if not at or kept[at - 1] != letter)
    return once if len(once) >= _LEAST_HEARD else None
