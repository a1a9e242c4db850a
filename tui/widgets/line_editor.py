"""A line of text being typed: pure, so that grids and pages of boxes share it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Self

from domain.value import cleaned


@dataclass(frozen=True, slots=True)
class LineEditor:
    """Text with a cursor. Every method gives the editor after the key."""

    text: str = ""
    cursor: int = 0

    @classmethod
    def at_end(cls, text: str) -> Self:
        """An editor on existing text, ready to go on typing."""
        return cls(text, len(text))

    def typed(self, letters: str, *, newlines: bool = False) -> Self:
        """The letters put in at the cursor, pasted control characters left out."""
        plain = cleaned(letters, newlines=newlines)
        text = self.text[: self.cursor] + plain + self.text[self.cursor :]
        return replace(self, text=text, cursor=self.cursor + len(plain))

    def after_key(self, key: str) -> Self | None:
        """The editor after an editing key; None when the key is not one."""
        move = _MOVES.get(key)
        if move is not None:
            return replace(self, cursor=move(self))
        if key in {"backspace", "ctrl+h"}:
            return self._cut(max(self.cursor - 1, 0), self.cursor)
        if key == "delete":
            return self._cut(self.cursor, self.cursor + 1)
        if key == "ctrl+u":
            return self._cut(0, self.cursor)
        if key == "ctrl+k":
            return self._cut(self.cursor, len(self.text))
        if key == "ctrl+w":
            return self._cut(_word_left(self), self.cursor)
        return None

    def _cut(self, start: int, end: int) -> Self:
        return replace(self, text=self.text[:start] + self.text[end:], cursor=start)


def _word_left(editor: LineEditor) -> int:
    before = editor.text[: editor.cursor].rstrip()
    return before.rfind(" ") + 1


def _word_right(editor: LineEditor) -> int:
    space = editor.text.find(" ", editor.cursor)
    if space < 0:
        return len(editor.text)
    rest = editor.text[space:]
    return space + len(rest) - len(rest.lstrip())


def _left(editor: LineEditor) -> int:
    return max(editor.cursor - 1, 0)


def _right(editor: LineEditor) -> int:
    return min(editor.cursor + 1, len(editor.text))


def _home(_: LineEditor) -> int:
    return 0


def _end(editor: LineEditor) -> int:
    return len(editor.text)


_MOVES: Mapping[str, Callable[[LineEditor], int]] = {
    "left": _left,
    "right": _right,
    "home": _home,
    "end": _end,
    "ctrl+left": _word_left,
    "ctrl+right": _word_right,
}
