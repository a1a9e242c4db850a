"""What was typed for a figure, key by key."""

from collections.abc import Mapping
from typing import Any, TypeVar

from domain.edition import Edition
from domain.figures.asked.answer import NotAskableError
from domain.figures.asked.key import EDITION, FigureKey, either

T = TypeVar("T")


class Given:
    """The keys typed for one figure; every value is read before anything is worked out."""

    def __init__(self, figure: str, typed: Mapping[str, str], otherwise: Edition) -> None:
        self.figure = figure
        self._typed = typed
        self.edition: Edition = Edition[self.get(EDITION, otherwise.name)]

    def has(self, key: FigureKey[T]) -> bool:
        """The key was typed."""
        return key.name in self._typed

    def maybe(self, key: FigureKey[T]) -> T | None:
        """The value of a key, or None where it was not typed."""
        return key.read(self._typed[key.name]) if self.has(key) else None

    def get(self, key: FigureKey[T], otherwise: T) -> T:
        """The value of a key, or what is taken instead."""
        return key.read(self._typed[key.name]) if self.has(key) else otherwise

    def need(self, key: FigureKey[T]) -> T:
        """The value of a key the figure cannot do without."""
        if not self.has(key):
            raise NotAskableError(f"{self.figure} needs {key.name}=, {key.says}: {key.allowed}")
        return key.read(self._typed[key.name])

    def refuse(self, because: str, *keys: FigureKey[Any]) -> None:
        """These keys make no sense here."""
        for key in keys:
            if self.has(key):
                raise NotAskableError(f"{key.name} has no place here: {because}")

    def one_of(self, *keys: FigureKey[Any]) -> FigureKey[Any]:
        """The one of these keys that was typed; none or several is refused."""
        typed = [key for key in keys if self.has(key)]
        names = either(tuple(f"{key.name}=" for key in keys))
        if not typed:
            raise NotAskableError(f"{self.figure} needs {names}")
        if len(typed) > 1:
            raise NotAskableError(f"{self.figure} takes only one of {names}")
        return typed[0]
