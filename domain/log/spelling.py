"""Words typed with one letter wrong, one too many, one too few, or two swapped.

Kept by hand: a library of distances would compare a word with every word of the log; the index hands over the few that
share a gap with it, and what is left to compare is this.
"""

SHORTEST = 4
"""Shorter words, and those with figures in them, are never put right: too much is one letter away from them."""
_HEARD = (
    *(("ph", "f"), ("ck", "k"), ("qu", "kw"), ("gh", "g"), ("sch", "sh"), ("tch", "ch"), ("ce", "se"), ("ci", "si")),
    *(("cy", "sy"), ("ch", "\0"), ("c", "k"), ("z", "s"), ("x", "ks")),
)
"""What is heard alike in English; common practice of lists of names."""
_UNHEARD = frozenset("aeiouywh")
_LEAST_HEARD = 3


def gaps_of(word: str) -> frozenset[str]:
    """A word, the word with each of its letters left out, and how it is heard. Words one slip apart share one of these."""
    heard = _heard(word)
    return frozenset(
        {word, *(word[:at] + word[at + 1 :] for at in range(len(word))), *({f"~{heard}"} if heard else ())}
    )


def may_be_misspelt(word: str) -> bool:
    """Long enough, and all letters."""
    return len(word) >= SHORTEST and word.isalpha()


def is_one_slip(typed: str, meant: str) -> bool:
    """One letter wrong, too many or too few, or two neighbours swapped."""
    if typed == meant or abs(len(typed) - len(meant)) > 1:
        return False
    at = next((each for each, (one, other) in enumerate(zip(typed, meant, strict=False)) if one != other), None)
    if at is None:
        return True
    rest, other = typed[at:], meant[at:]
    return (
        rest[1:] == other[1:]
        or rest[1:] == other
        or rest == other[1:]
        or (rest[:2] == other[1::-1] and rest[2:] == other[2:])
    )


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
