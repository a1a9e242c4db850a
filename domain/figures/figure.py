"""One figure that may be asked for."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from domain.figures.answer import Answer
from domain.figures.given import Given
from domain.figures.key import Key


@dataclass(frozen=True, slots=True)
class Figure:
    """A name, the keys it takes, examples of asking, and the function that answers."""

    name: str
    says: str
    unit: str
    keys: tuple[Key[Any], ...]
    examples: tuple[tuple[str, ...], ...]
    """What is typed after the name."""
    work: Callable[[Given], Answer]
