"""The two lines at the foot of a screen: the last word said to the person, and the keys."""

from rich.text import Text
from textual.widgets import Static

from tui import theme


class SayLine(Static):
    """One sentence for the person: what went wrong or what was done."""

    DEFAULT_CSS = "SayLine { height: 1; padding: 0 1; }"

    def say(self, sentence: str, *, bad: bool = False) -> None:
        """Show a sentence, replacing the last one."""
        sign = f"{theme.SIGN_FAILS} " if bad else ""
        self.update(
            Text(f"{sign}{sentence}", style=theme.FAILS if bad else theme.PLAIN, no_wrap=True, overflow="ellipsis")
        )


class KeyLine(Static):
    """The keys that matter here, by name and word."""

    DEFAULT_CSS = "KeyLine { height: 1; padding: 0 1; }"

    def show_keys(self, keys: list[tuple[str, str]]) -> None:
        """Show these keys, as many as there is room for."""
        line = Text(no_wrap=True, overflow="crop")
        for shown, word in keys:
            line.append(shown, theme.HEAD)
            line.append(f" {word}  ")
        self.update(line)
