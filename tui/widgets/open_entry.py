"""What is being typed into one box, until it is kept or given back."""

from dataclasses import dataclass, replace
from typing import Self

from rich.segment import Segment

from domain.job.box import BoxKind, answers_in
from domain.log.half_typed import HalfTyped
from tui import theme
from tui.keys.editing import EDITING, MOVES
from tui.widgets.box_view import BoxView
from tui.widgets.line_editor import LineEditor

_MARKED = {BoxKind.NUMBER, BoxKind.READING}
_GOES_ON = {BoxKind.LINE, BoxKind.PROSE}
"""Texts, which somebody goes on with where they could not be saved; anything else is one figure, mark or choice."""
_MARK_OF = {"n": "N/A", "l": "LIM", "v": "N/V"}
"""Letters that stand for a mark where a figure or a tick would."""
_NOT_SO = frozenset({"x", "no"})
"""What says of a tick that it is not so."""


@dataclass(frozen=True, slots=True)
class OpenEntry:
    """The text of a box while it is typed. Every method gives the entry after the key."""

    view: BoxView
    editor: LineEditor
    fresh: bool = False
    """Begun by typing over the box, not by opening its text."""
    stepped: bool = False
    """The text is an offer, reached with Space or put forward from elsewhere; typing replaces it."""
    led_by: str = ""
    """What was typed before Space came to an offer, and goes on where typing goes on: it may be the words of a phrase."""
    not_saved: bool = False
    """The log could not take it. A figure typed now is another one: its digits never join these."""
    aside: "OpenEntry | None" = None
    """The entry that could not be saved and was typed over, to be given back."""

    @classmethod
    def typed_over(cls, view: BoxView, letters: str) -> Self:
        """An entry begun by typing on a box at rest."""
        return cls(view, LineEditor(), fresh=True).typed(letters)

    @classmethod
    def opened(cls, view: BoxView) -> Self:
        """An entry on the text that stands there, ready to go on at its end."""
        return cls(view, LineEditor.at_end(view.typed))

    @classmethod
    def put_forward(cls, view: BoxView, text: str) -> Self:
        """An entry on a text from elsewhere, which typing replaces."""
        return cls(view, LineEditor.at_end(text), fresh=True, stepped=True)

    @classmethod
    def taken_up(cls, view: BoxView, left: HalfTyped) -> Self:
        """An entry as it was left open."""
        editor = LineEditor(left.typed.get(view.place.box, ""), left.cursor)
        return cls(view, editor, left.fresh, left.stepped, left.led_by)

    @property
    def text(self) -> str:
        """What would be kept now: an offer as it is spelt where what was typed can mean only that."""
        text = self.editor.text
        if self.stepped or text == self.view.typed:
            return text
        if mark := self._mark(text):
            return mark
        meant = [picked_from(self.view, answer) for answer in self._answers(text)]
        spelt = self.view.box.spelt(text)
        return " and ".join(dict.fromkeys(map(min, meant))) if all(len(offers) == 1 for offers in meant) else spelt

    def _mark(self, text: str) -> str:
        """The mark a text stands for: N, L and V everywhere that N/A, LIM and N/V can stand; "" where it is a text."""
        box, letters = self.view.box, text.strip().casefold()
        if box.kind is BoxKind.TICK:
            mark = "N" if letters in _NOT_SO else _MARK_OF.get(letters, "")
            return "" if mark == "N/A" and mark not in self.view.marks else mark
        if picked_from(self.view, text.strip()):
            return ""
        if box.kind in _MARKED:
            return _MARK_OF.get(letters, "")
        mark = "" if box.by_letter else _MARK_OF.get(letters, "")
        return mark if mark in self.view.marks else ""

    @property
    def offers(self) -> tuple[str, ...]:
        """The offers that what was typed leaves."""
        typed = "" if self.stepped else self._answers(self.editor.text)[-1]
        return picked_from(self.view, typed) if typed else self.view.offers

    def _answers(self, text: str) -> tuple[str, ...]:
        return answers_in(text) if self.view.box.several else (text.strip(),)

    @property
    def is_changed(self) -> bool:
        """The box would hold something else than it holds."""
        return self.text != self.view.typed

    def typed(self, letters: str) -> Self:
        """The entry with letters typed or pasted in; Space steps through offers."""
        if letters == " " and self._space_steps:
            return self._step()
        if self.not_saved and self.view.box.kind not in _GOES_ON:
            begun = replace(
                self, editor=LineEditor(), stepped=False, led_by="", not_saved=False, fresh=True, aside=self
            )
            return begun.typed(letters)
        editor = LineEditor.at_end(self.led_by) if self.stepped else self.editor
        keeps_lines = self.view.box.kind is BoxKind.PROSE
        return replace(
            self, editor=editor.typed(letters, newlines=keeps_lines), stepped=False, led_by="", not_saved=False
        )

    def after_key(self, key: str, *, sideways: bool) -> Self | None:
        """The entry after an editing key; None when the key is none, or moves sideways and that is not wanted."""
        if not sideways and EDITING.get(key) in MOVES:
            return None
        editor = self.editor.after_key(key)
        return replace(self, editor=editor, stepped=False, not_saved=False) if editor else None

    def kept_open(self) -> Self:
        """The entry when the log could not take it."""
        return replace(self, not_saved=True)

    @property
    def _space_steps(self) -> bool:
        if not self.view.offers:
            return False
        if self.stepped or not self.editor.text:
            return True
        further = f"{self.editor.text} ".casefold()
        if any(offer.casefold().startswith(further) for offer in self.view.offers):
            return False
        return not self.view.box.open_choice and bool(self.offers)

    def _step(self) -> Self:
        among = self.view.offers if self.stepped else self.offers
        start = self.editor.text if self.stepped or self.editor.text else self.view.typed
        at = among.index(start) + 1 if start in among else 0
        typed = self.led_by if self.stepped else self.editor.text
        led_by = f"{typed} " if typed else ""
        return replace(self, editor=LineEditor.at_end(among[at % len(among)]), stepped=True, led_by=led_by)


def picked_from(view: BoxView, typed: str) -> tuple[str, ...]:
    """The offers a typed text can mean: spelt out, by beginning, by number in the list, or by a word in them."""
    sought = typed.casefold()
    if not sought:
        return ()
    offers = view.offers
    exact = tuple(offer for offer in offers if offer.casefold() == sought)
    begun = exact or tuple(offer for offer in offers if offer.casefold().startswith(sought))
    if begun:
        return begun
    if is_numbered(view) and sought.isdecimal() and 0 < int(sought) <= len(offers):
        return (offers[int(sought) - 1],)
    return tuple(offer for offer in offers if any(word.casefold().startswith(sought) for word in offer.split()))


def is_numbered(view: BoxView) -> bool:
    """A number picks from these offers: they are the only answers, and no answer is a number itself."""
    return (
        view.box.kind is BoxKind.CHOICE
        and not view.box.open_choice
        and not any(offer[0].isdecimal() for offer in view.offers)
    )


def painted(editor: LineEditor, start: int, end: int) -> list[Segment]:
    """One line of a text being typed, with its cursor if that stands on this line."""
    text, cursor = editor.text[start:end], editor.cursor - start
    if not 0 <= cursor <= len(text):
        return [Segment(text, theme.EDITED)]
    under = text[cursor : cursor + 1] or " "
    parts = [(text[:cursor], theme.EDITED), (under, theme.TYPED_AT), (text[cursor + 1 :], theme.EDITED)]
    return [Segment(letters, style) for letters, style in parts if letters]
