"""One figure that may be asked for."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from domain.figures.asked.answer import FigureAnswer
from domain.figures.asked.given import Given
from domain.figures.asked.key import FigureKey


@dataclass(frozen=True, slots=True)
class Figure:
    """A name, the keys it takes, examples of asking, and the function that answers."""

    name: str
    says: str
    unit: str
    keys: tuple[FigureKey[Any], ...]
    examples: tuple[tuple[str, ...], ...]
    """What is typed after the name."""
    work: Callable[[Given], FigureAnswer]
    turned: tuple[tuple[str, ...], ...] = ()
    """The same for what is asked the other way round and has a unit of its own."""
