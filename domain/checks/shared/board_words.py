"""Whether a description tells of a board that was put in or replaced, and not of something in it, at it or beside it."""

import re

_BOARD = r"(?:consumer units?|fuse ?(?:board|box)(?:es)?|distribution boards?)"
_REPLACED = r"(?:replac\w*|renew\w*|chang(?:e|ed|ing)|upgrad\w*|swap\w*|exchang\w*)"
_PUT_IN = r"(?:new|fit(?:ted|ting)?|install\w*)"
_LIKE = (
    r"(?: (?!(?:in|at|to|for|on|from|of|by|with|and|near|beside|inside|within|next|behind|feeding|off)\b)[\w/-]+){0,4}"
)
"""What it is like; a word that leads away from it ends the match."""
_OF_THE_BOARD = r"(?! (?:labels?|charts?|covers?|lids?|doors?|tails?|blanks?|cupboard|location|position)\b)"
_SAID_AFTER = (
    rf"\b{_BOARD} (?:(?:was|were|has been|have been) )?(?:replaced|renewed|changed|upgraded|swapped|exchanged)\b"
)
_OCCASION = rf"\b{_BOARD} (?:change|replacement|renewal|upgrade|swap|exchange)\b"
_LARGER = re.compile(r"\bdistribution boards?\b", re.IGNORECASE)
_IS_REPLACED = re.compile(
    rf"\b{_REPLACED}(?: of)?{_LIKE} {_BOARD}{_OF_THE_BOARD}|{_SAID_AFTER}|{_OCCASION}", re.IGNORECASE
)
_IS_PUT_IN = re.compile(rf"\b{_PUT_IN}(?: of)?{_LIKE} {_BOARD}{_OF_THE_BOARD}", re.IGNORECASE)


def tells_of_a_replaced_board(text: str) -> bool:
    """A board stands where another stood."""
    return bool(_IS_REPLACED.search(text))


def tells_of_a_replaced_consumer_unit(text: str) -> bool:
    """The board of a home or the like stands where another stood, and no distribution board is spoken of."""
    return tells_of_a_replaced_board(text) and not _LARGER.search(text)


def tells_of_a_new_board(text: str) -> bool:
    """A board was put in, or replaced."""
    return bool(_IS_PUT_IN.search(text)) or tells_of_a_replaced_board(text)
