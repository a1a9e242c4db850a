"""Words typed with one letter wrong, one too many, one too few, or two swapped: what such a word has in common with the one meant."""

SHORTEST = 4
"""Shorter words, and those with figures in them, are never put right: too much is one letter away from them."""


def gaps_of(word: str) -> frozenset[str]:
    """A word, and the word with each of its letters left out. Words one slip apart share one of these."""
    return frozenset({word, *(word[:at] + word[at + 1 :] for at in range(len(word)))})


def may_be_misspelt(word: str) -> bool:
    """Long enough, and all letters."""
    return len(word) >= SHORTEST and word.isalpha()


def is_one_edit_apart(typed: str, meant: str) -> bool:
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
