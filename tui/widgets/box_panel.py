"""The lines below a page or schedule: all there is to say of the box under the cursor."""

from itertools import zip_longest

from rich.segment import Segment
from rich.style import Style
from textual.geometry import Region
from textual.reactive import var
from textual.strip import Strip
from textual.widget import Widget

from domain.job.box import BoxKind
from tui import theme
from tui.keys import key_name
from tui.widgets.box_view import BoxView
from tui.widgets.open_entry import OpenEntry, is_numbered
from tui.widgets.wrapping import fitted, wrapped

Line = tuple[str, Style]
_MORE = f" {key_name('help')}"
"""Behind a text that is cut: the key that says it whole."""
HEIGHT = 4
HEIGHT_OF_WORKING = 6
"""Below a schedule, where limit, expected figure and the last time want room as well."""
_OF_A_DANGER = 2
"""Lines that a caution has at the least; each is written to fit them."""


class BoxPanel(Widget):
    """Full label with unit, what is wrong or found, what is known from elsewhere, what may be picked, help.

    In this order, as far as there is room.
    """

    DEFAULT_CSS = f"""
    BoxPanel {{ height: {HEIGHT}; }}
    BoxPanel.working {{ height: {HEIGHT_OF_WORKING}; }}
    """

    lines: var[tuple[Line, ...]] = var(())
    """What is shown, line by line."""

    def __init__(self) -> None:
        super().__init__()
        self._view: BoxView | None = None
        self._entry: OpenEntry | None = None
        self._empty = ""
        self._asides: tuple[str, ...] = ()
        self._dangers: tuple[str, ...] = ()

    def show(
        self,
        view: BoxView | None,
        entry: OpenEntry | None = None,
        empty: str = "",
        asides: tuple[str, ...] = (),
        dangers: tuple[str, ...] = (),
    ) -> None:
        """Describe a box and what is being typed into it; `empty` is said where there is no box.

        `asides` are lines of what is known from elsewhere: the tables, the register, an earlier visit; `dangers` what can
        hurt people at this box of this job.
        """
        self._view, self._entry, self._empty, self._asides, self._dangers = view, entry, empty, asides, dangers
        self._lay_out()

    def watch_lines(self, before: tuple[Line, ...], after: tuple[Line, ...]) -> None:
        for y, (old, new) in enumerate(zip_longest(before, after)):
            if old != new:
                self.refresh(Region(0, y, self.size.width, 1))

    def on_resize(self) -> None:
        """Another width wraps otherwise."""
        self._lay_out()

    def render_line(self, y: int) -> Strip:
        if y >= len(self.lines):
            return Strip.blank(self.size.width)
        text, style = self.lines[y]
        return Strip([Segment(f" {text}", style)]).adjust_cell_length(self.size.width)

    def _lay_out(self) -> None:
        width, height = max(self.size.width - 2, 1), self.size.height or HEIGHT
        if self._view is None:
            self.lines = tuple(_block(self._empty, theme.PLAIN, width, height))
        else:
            self.lines = tuple(panel_lines(self._view, self._entry, width, height, self._asides, self._dangers))


def panel_lines(
    view: BoxView,
    entry: OpenEntry | None,
    width: int,
    height: int = HEIGHT,
    asides: tuple[str, ...] = (),
    dangers: tuple[str, ...] = (),
) -> list[Line]:
    """What there is to say of a box, on at most `height` lines; what can hurt has its room first."""
    parts = _parts(view, entry, asides, dangers)
    is_wrong = bool(parts[len(dangers)][0])
    firsts = [_OF_A_DANGER] * len(dangers)
    firsts += [max(height - 1 - len(asides), 2), *([1] * len(asides)), 1 if is_wrong else 2, 1, 1, 1, 1, 1]
    needs = [len(wrapped(text, width)) if text else 0 for text, _ in parts]
    shares = _shares(needs, firsts, height - 1)
    blocks = [_block(text, style, width, share) for (text, style), share in zip(parts, shares, strict=True)]
    return [(fitted(_title(view), width), theme.HEAD), *(line for block in blocks for line in block)]


def told_whole(
    view: BoxView, entry: OpenEntry | None, asides: tuple[str, ...], dangers: tuple[str, ...] = ()
) -> list[Line]:
    """The same however long it is, a text at a time."""
    parts = _parts(view, entry, asides, dangers)
    return [(_title(view), theme.HEAD), *((text, style) for text, style in parts if text)]


def _title(view: BoxView) -> str:
    return f"{view.whose}: {view.label}" if view.whose else view.label


def _parts(view: BoxView, entry: OpenEntry | None, asides: tuple[str, ...], dangers: tuple[str, ...]) -> list[Line]:
    """What can hurt, what is wrong, what is known from elsewhere, what may be picked, help, marks, what is cited; some empty."""
    wrong = [_apart(says) for says in view.says] if entry is None or not entry.is_changed else []
    told = "; ".join(says for says, _ in wrong)
    return [
        *((f"{theme.SIGN_SNAG} {danger}", theme.ASKS) for danger in dangers),
        (told and f"{view.sign or '-'} {told}", _style_of(view.sign)),
        *((aside, theme.PLAIN) for aside in asides),
        (_offered(view, entry), theme.PLAIN),
        ("" if view.needed or view.typed else "Not needed here.", theme.QUIET),
        (_whole(view, entry), theme.PLAIN),
        (view.box.help or _HOW.get(view.box.kind, ""), theme.QUIET),
        (_marked(view), theme.QUIET),
        ("; ".join(dict.fromkeys(cited for _, cited in wrong if cited)), theme.QUIET),
    ]


def _apart(says: str) -> tuple[str, str]:
    """What is said, and apart from it what is cited at its end."""
    told, bracket, cited = says.rpartition(" [")
    return (told, cited.removesuffix("]")) if bracket and cited.endswith("]") else (says, "")


def _shares(needs: list[int], first: list[int], room: int) -> list[int]:
    """How many lines each part gets: so many of its own first, in order, then whatever room is left."""
    given: list[int] = []
    for need, own in zip(needs, first, strict=True):
        given.append(min(need, own, room))
        room -= given[-1]
    for at, need in enumerate(needs):
        more = min(need - given[at], room)
        given[at] += more
        room -= more
    return given


_HOW = {
    BoxKind.NUMBER: "A number.",
    BoxKind.READING: "The value as measured; >999 when over range.",
    BoxKind.TICK: "Y when confirmed, N when not.",
    BoxKind.DATE: "A date, such as 25/11/2026 or 25 Nov 26.",
}


def _style_of(sign: str) -> Style:
    return theme.FAILS if sign == theme.SIGN_FAILS else theme.ASKS


def _offered(view: BoxView, entry: OpenEntry | None) -> str:
    if not view.offers:
        return ""
    left = entry.offers if entry else view.offers
    if not left:
        return "" if view.box.open_choice else "None of the answers begins so."
    chosen = entry.text if entry else view.shown
    numbered = is_numbered(view)
    parts = [
        f"{view.offers.index(offer) + 1} {offer}" if numbered else (f"[{offer}]" if offer == chosen else offer)
        for offer in left
    ]
    return f"Space: {'  '.join(parts)}"


def _marked(view: BoxView) -> str:
    """The keys that set a mark here, letters only where a figure belongs; and today's date."""
    if view.box.kind is BoxKind.DATE:
        return "T: today"
    if view.box.kind not in {BoxKind.NUMBER, BoxKind.READING, BoxKind.TICK}:
        return ""
    keys = _MARK_KEYS | ({"N/A": key_name("set-na")} if view.box.kind is BoxKind.TICK else {})
    return "   ".join(f"{keys[mark]}: {mark}" for mark in view.marks)


_MARK_KEYS = {
    "Y": key_name("set-tick"),
    "N/A": f"N or {key_name('set-na')}",
    "LIM": f"L or {key_name('set-lim')}",
    "N/V": "V",
}


def _whole(view: BoxView, entry: OpenEntry | None) -> str:
    """A text longer than a schedule has room for; a page shows it whole itself."""
    text = entry.text if entry else view.typed
    return text if view.place.circuit and len(text) > view.box.width and view.box.kind is not BoxKind.PROSE else ""


def _block(text: str, style: Style, width: int, most: int) -> list[Line]:
    if not text or most <= 0:
        return []
    spans = wrapped(text, width)
    shown = [text[start:end] for start, end in spans[:most]]
    if len(spans) > most:
        shown[-1] = f"{fitted(text[spans[most - 1][0] :], width - len(_MORE))}{_MORE}"
    return [(line, style) for line in shown]
