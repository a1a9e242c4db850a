"""How far an installation goes beyond a home of one board, by what its boards and its supply device say."""

import re
from collections.abc import Iterator, Sequence

from domain.inspection.checklist import Larger
from domain.inspection.extent import Extent
from domain.job.board import Board
from domain.job.supply import Supply

_NOT_A_NAME = re.compile(r"[\W_]+")


def extent_of(boards: Sequence[Board], supply: Supply, larger: Larger) -> tuple[Extent, ...]:
    """What holds of the installation; where nothing is typed, it is taken for a home."""
    found: list[Extent] = []
    if any(_feeds(board, fed) for board in boards for fed in boards if fed is not board):
        found.append(Extent.DISTRIBUTION)
    three = any(board.phases.strip() == larger.phases for board in boards)
    ratings = (supply.device_rating, *(board.device_rating for board in boards))
    if three or any(each.figure is not None and each.figure > larger.over_amperes for each in ratings):
        found += (Extent.LARGER, Extent.DISTRIBUTION)
    if three:
        found.append(Extent.THREE_PHASES)
    return tuple(dict.fromkeys(found))


def _feeds(board: Board, fed: Board) -> bool:
    """The other board is named where this one says what supplies it, `way 4 of DB 1` like `DB1 / 4`."""
    name = _letters(board.designation)
    return bool(name) and name in _starts(fed.supplied_from)


def _letters(text: str) -> str:
    return _NOT_A_NAME.sub("", text).casefold()


def _starts(text: str) -> Iterator[str]:
    """Each run of words in a text as one, so that DB1 is not found in DB10."""
    words = [word.casefold() for word in _NOT_A_NAME.split(text) if word]
    return ("".join(words[one:other]) for one in range(len(words)) for other in range(one + 1, len(words) + 1))
