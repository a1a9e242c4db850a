"""When two papers speak of the same place, however its address was typed."""

from domain.job.people import Premises
from domain.value import says_nothing
from domain.words import joined, words_of


def words_to_find(premises: Premises) -> str:
    """What to ask the log for: the postcode whole and every number of the address; all its words without a postcode."""
    words = words_of(premises.address)
    if says_nothing(premises.postcode):
        return " ".join(words)
    return " ".join((*_numbers(words), joined(premises.postcode)))


def is_same_place(one: Premises, other: Premises) -> bool:
    """The same postcode with the same numbers and a word in common; or the same words where a postcode is missing."""
    words, others = words_of(one.address), words_of(other.address)
    if not words or not others:
        return False
    if says_nothing(one.postcode) or says_nothing(other.postcode):
        return _without(words, one) == _without(others, other)
    if joined(one.postcode) != joined(other.postcode) or set(_numbers(words)) != set(_numbers(others)):
        return False
    return bool(_names(words) & _names(others)) or not (_names(words) and _names(others))


def _numbers(words: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(word for word in words if any(letter.isdigit() for letter in word))


def _names(words: tuple[str, ...]) -> set[str]:
    return {word for word in words if not any(letter.isdigit() for letter in word)}


def _without(words: tuple[str, ...], premises: Premises) -> tuple[str, ...]:
    postcode = set(words_of(premises.postcode))
    return tuple(word for word in words if word not in postcode)
