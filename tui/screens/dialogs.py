"""Small questions over any screen: yes or no, one line, or a few lines. They only hand back the answer."""

from collections.abc import Callable, Mapping
from typing import Any, ClassVar, Generic, TypeVar, cast

from rich.text import Text
from textual import on
from textual.app import App, ComposeResult
from textual.await_complete import AwaitComplete
from textual.binding import BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen, Screen
from textual.strip import Strip
from textual.timer import Timer
from textual.widget import Widget
from textual.widgets import Static

from tui import theme
from tui.half_typing import Asked, HalfTyping
from tui.keys import bindings, keys_at
from tui.screens.coach import CoachScreen
from tui.widgets.entry_lines import AskedLine, EntryLines
from tui.widgets.foot import KeyLine, SayLine
from tui.widgets.text_page import Paragraph, TextPage, begun_with
from tui.widgets.too_small import TooSmall

Answer = TypeVar("Answer")


DIALOG_STYLES = """
{kind} {{ align: center middle; }}
{kind} > Vertical {{
    width: 100%; height: auto; max-height: 24; border: solid ansi_default; padding: 0 1;
    background: ansi_default; overflow-y: auto; scrollbar-size: 0 0;
}}
{kind} Static {{ height: auto; }}
{kind} KeyLine, {kind} SayLine {{ height: 1; padding: 0; }}
"""
"""A box over the screen."""
_EXPLAINS = "A question that came up on the screen below. Escape leaves everything there as it was."


def boxed(question: str, about: str, *answer: Widget) -> ComposeResult:
    """What is asked, a word of help, what is answered with where keys alone do not do, and the keys that answer."""
    with Vertical():
        yield AskedAbove(question, is_typed=bool(answer))
        if about:
            yield Static(Text(about))
        yield from answer
        yield KeyLine()
    yield TooSmall()


class AskedAbove(TextPage):
    """What is asked. The terminal's cursor stands at its beginning where keys alone answer it."""

    DEFAULT_CSS = "AskedAbove { height: auto; }"

    def __init__(self, question: str, *, is_typed: bool) -> None:
        super().__init__()
        self._is_typed = is_typed
        self.show([Paragraph(question, theme.HEAD)])

    def render_line(self, y: int) -> Strip:
        strip = super().render_line(y)
        return strip if y or self._is_typed else begun_with(strip, theme.ASKED)


def show_answering_keys(screen: Screen[Any]) -> None:
    """List the keys that answer."""
    screen.query_one(KeyLine).show_keys([key for key, _ in keys_at(screen)])


def coach_on(screen: Screen[Any]) -> None:
    """Explain what the question is about."""
    app = cast("App[None]", screen.app)  # pyright: ignore[reportUnknownMemberType]
    app.push_screen(CoachScreen(app.screen_stack))


class ConfirmScreen(ModalScreen[bool]):
    """Yes or no."""

    EXPLAINS: ClassVar[str] = _EXPLAINS
    DEFAULT_CSS = DIALOG_STYLES.format(kind="ConfirmScreen")
    BINDINGS: ClassVar[list[BindingType]] = bindings("coach", "palette", "help", "yes", "no")

    def __init__(self, question: str, about: str = "") -> None:
        super().__init__()
        self.question = question
        self.about = about

    def compose(self) -> ComposeResult:
        yield from boxed(self.question, self.about)

    def on_mount(self) -> None:
        """Show the keys that answer."""
        show_answering_keys(self)

    def action_coach(self) -> None:
        """Explain what the question is about."""
        coach_on(self)

    def action_answer(self, answer: bool) -> None:  # noqa: FBT001 - an action's parameters are positional
        """Hand back yes or no."""
        self.dismiss(answer)


class TypedDialog(ModalScreen[Answer], Generic[Answer]):
    """A question answered by typing. Leaving it with something typed takes a second press, so that none is lost."""

    EXPLAINS: ClassVar[str] = _EXPLAINS
    DEFAULT_CSS = DIALOG_STYLES.format(kind="TypedDialog")
    BINDINGS: ClassVar[list[BindingType]] = bindings("coach", "palette", "help", "let-be")

    def __init__(self, question: str, lines: tuple[AskedLine, ...], about: str = "") -> None:
        super().__init__()
        self.question = question
        self.about = about
        self.lines = lines
        self._warned_of: Mapping[str, str] = {}

    def compose(self) -> ComposeResult:
        yield from boxed(self.question, self.about, EntryLines(self.lines), SayLine())

    def on_mount(self) -> None:
        """Show the keys that answer; go on with what was typed when the line dropped."""
        show_answering_keys(self)
        if self._half_typing and (left := self._half_typing.left_in_question(self._asked)):
            self.query_one(EntryLines).put_back(left.typed)
            self.keep_half_typed()
            self._half_typing.forget(left)
            self.query_one(SayLine).say("As it stood when the line dropped. Enter keeps it, Esc twice drops it")

    def action_coach(self) -> None:
        """Explain what the question is about."""
        coach_on(self)

    @on(EntryLines.Changed)
    def keep_half_typed(self) -> None:
        """Keep what is typed as far as it is typed: the program may end at any key."""
        entry = self.query_one(EntryLines)
        if self._half_typing is None or any(line.is_secret for line in self.lines):
            return
        if entry.is_changed:
            self._half_typing.in_question(self._asked, entry.typed)
        else:
            self._half_typing.finish()

    def dismiss(self, result: Answer | None = None) -> AwaitComplete:
        """Hand it back; nothing of it is unfinished now."""
        if self._half_typing:
            self._half_typing.finish()
        return super().dismiss(result)

    @property
    def _half_typing(self) -> HalfTyping | None:
        app = cast("App[None]", self.app)  # pyright: ignore[reportUnknownMemberType]
        return getattr(app, "half_typing", None)

    @property
    def _asked(self) -> Asked:
        app = cast("App[None]", self.app)  # pyright: ignore[reportUnknownMemberType]
        numbers = [number for screen in app.screen_stack if (number := getattr(screen, "number", ""))]
        return Asked(numbers[-1] if numbers else "", self.question, {line.name: line.text for line in self.lines})

    def action_accept_line(self) -> None:
        """On to the next line; the last one ends it."""
        entry = self.query_one(EntryLines)
        if entry.is_last or entry.line is entry.missing:
            self.action_accept_all()
        else:
            entry.action_line(1)

    def action_accept_all(self) -> None:
        """Hand back what was typed, once nothing is missing."""
        entry = self.query_one(EntryLines)
        if missing := entry.missing:
            entry.go_to(missing.name)
            self.query_one(SayLine).say(f"{missing.label or 'This'} is needed; Esc leaves it", bad=True)
            return
        self.hand_back(entry.typed)

    def hand_back(self, typed: Mapping[str, str]) -> None:
        """Dismiss with the answer."""
        raise NotImplementedError

    def action_let_be(self) -> None:
        """Hand back nothing."""
        entry = self.query_one(EntryLines)
        if entry.is_changed and self._warned_of != entry.typed:
            self._warned_of = entry.typed
            self.query_one(SayLine).say("Esc once more leaves it and drops what was typed; Enter keeps it")
            return
        self.dismiss(None)


class LineScreen(TypedDialog[str | None]):
    """One line."""

    BINDINGS: ClassVar[list[BindingType]] = bindings("accept-one")

    def __init__(
        self,
        question: str,
        text: str = "",
        help: str = "",  # noqa: A002
        *,
        must: bool = True,
        secret: bool = False,
    ) -> None:
        super().__init__(question, (AskedLine("line", "", text, must=must, is_secret=secret),), help)

    def hand_back(self, typed: Mapping[str, str]) -> None:
        """The line, without the blanks around it."""
        self.dismiss(typed["line"].strip())


class FormScreen(TypedDialog[Mapping[str, str] | None]):
    """A few lines, handed back by their names; what is known of the like of them stands beside them while they are typed."""

    RESTS_AFTER: ClassVar[float] = 0.25
    """Seconds without a key after which the hands are taken to rest, and what stands beside the lines follows them."""
    BESIDE_ROWS: ClassVar[int] = 9
    """Rows kept for it, so that nothing moves while somebody types; fewer where the lines need them."""
    DEFAULT_CSS = "FormScreen #beside { color: ansi_default; }"
    BINDINGS: ClassVar[list[BindingType]] = bindings("accept-line", "accept-all", "form-take")

    def __init__(
        self,
        question: str,
        lines: tuple[AskedLine, ...],
        about: str = "",
        *,
        at: str = "",
        refused: Callable[[Mapping[str, str]], tuple[str, str] | None] = lambda _: None,
        beside: Callable[[Mapping[str, str]], Text] | None = None,
        known: Callable[[Mapping[str, str]], Mapping[str, str]] | None = None,
    ) -> None:
        """`at` names the line to begin on. `refused` tells of a line that has to be typed otherwise: its name, and why.

        `known` gives texts, by line, that one key takes in place of what is typed there.
        """
        super().__init__(question, lines, about)
        self._first = at
        self._refused = refused
        self._beside = beside
        self._known = known
        self._rest: Timer | None = None

    def compose(self) -> ComposeResult:
        beside = (Static(id="beside"),) if self._beside else ()
        yield from boxed(self.question, self.about, EntryLines(self.lines), *beside, SayLine())

    def on_mount(self) -> None:
        """Begin on a line of its choice, where one was to be typed again."""
        super().on_mount()
        if self._first:
            self.query_one(EntryLines).go_to(self._first)
        self.call_after_refresh(self._speak)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Only where something is known is it taken."""
        return self._known is not None if action == "take_known" else super().check_action(action, parameters)

    def action_take_known(self) -> None:
        """Take what is known in place of what is typed."""
        entry = self.query_one(EntryLines)
        known = self._known(entry.typed) if self._known else {}
        if not known:
            self.query_one(SayLine).say("Nothing is known for these words; type on", bad=True)
        for name, text in known.items():
            entry.put(name, text)

    def on_resize(self) -> None:
        """Keep what stands beside the lines within the screen."""
        self.call_after_refresh(self._speak)

    @on(EntryLines.Changed)
    def _typed(self) -> None:
        if self._rest is not None:
            self._rest.stop()
        self._rest = self.set_timer(self.RESTS_AFTER, self._speak) if self.RESTS_AFTER else self._speak()

    def _speak(self) -> None:
        if self._beside is None:
            return
        beside, frame = self.query_one("#beside", Static), 2
        taken = sum(each.outer_size.height for each in self.query("Vertical > *") if each is not beside)
        beside.styles.height = max(0, min(self.BESIDE_ROWS, self.size.height - taken - frame))
        beside.update(self._beside(self.query_one(EntryLines).typed))

    def hand_back(self, typed: Mapping[str, str]) -> None:
        """Every line, without the blanks around it; stay where one has to be typed otherwise."""
        if wrong := self._refused(typed):
            name, why = wrong
            self.query_one(EntryLines).go_to(name)
            self.query_one(SayLine).say(why, bad=True)
            return
        self.dismiss({name: text.strip() for name, text in typed.items()})
