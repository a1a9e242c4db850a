"""A line of text being typed: pure, so that grids and pages of boxes share it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Self

from domain.value import cleaned
from tui.keys.editing import EDITING, Editing


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
        doing = EDITING.get(key)
        if doing is None:
            return None
        if (move := _MOVES.get(doing)) is not None:
            return replace(self, cursor=move(self))
        return self._cut(*_CUTS[doing](self))

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


_MOVES: Mapping[Editing, Callable[[LineEditor], int]] = {
    Editing.LEFT: _left,
    Editing.RIGHT: _right,
    Editing.START: _home,
    Editing.END: _end,
    Editing.WORD_LEFT: _word_left,
    Editing.WORD_RIGHT: _word_right,
}
"""Where the cursor goes."""
_CUTS: Mapping[Editing, Callable[[LineEditor], tuple[int, int]]] = {
    Editing.CUT_BEFORE: lambda editor: (_left(editor), editor.cursor),
    Editing.CUT_UNDER: lambda editor: (editor.cursor, editor.cursor + 1),
    Editing.CUT_TO_START: lambda editor: (0, editor.cursor),
    Editing.CUT_TO_END: lambda editor: (editor.cursor, len(editor.text)),
    Editing.CUT_WORD: lambda editor: (_word_left(editor), editor.cursor),
}
"""What goes: from where, to where."""
