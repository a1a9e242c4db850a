"""The coach beside or below the work: what stands under the cursor, why, how, what can hurt, and the rule."""

from collections.abc import Iterator

from domain.coach.entry import CoachEntry
from tui import theme
from tui.keys import key_name
from tui.widgets.text_page import Paragraph, TextPage

LABEL_WIDTH = 6
LINES = 9
"""Lines of text where it stands below the work."""


class CoachPanel(TextPage):
    """Below the work, and in a broad window beside it; never over what is typed into."""

    DEFAULT_CSS = f"CoachPanel {{ display: none; height: {LINES + 1}; padding: 0 1; border-top: solid ansi_default; }}"

    def on_mount(self) -> None:
        """Say how it goes away."""
        self.border_title = f"Coach; {key_name('coach')} closes it"

    def explain(self, entry: CoachEntry | None, otherwise: str, lifts: tuple[str, ...] = ()) -> None:
        """Show an entry, without one what the screen is for; and what lifts the questions there."""
        told = tuple(coach_paragraphs(entry)) if entry else (Paragraph(otherwise),)
        paragraphs = (*told, *lifting_paragraphs(lifts))
        if paragraphs != self.paragraphs:
            self.show(paragraphs)


def coach_paragraphs(entry: CoachEntry) -> Iterator[Paragraph]:
    """What there is to say; a caution only where people can be hurt."""
    for label, text in (("What", entry.what), ("Why", entry.why), ("How", entry.how)):
        yield Paragraph(text, label=label, label_width=LABEL_WIDTH)
    if entry.caution:
        yield Paragraph(entry.caution, theme.ASKS, theme.SIGN_SNAG, theme.ASKS, LABEL_WIDTH)
    yield Paragraph(entry.source.cited, theme.QUIET, "Rule", theme.QUIET, LABEL_WIDTH)


def lifting_paragraphs(lifts: tuple[str, ...]) -> Iterator[Paragraph]:
    """What lifts the questions of a box, after all else: what warns has the room first."""
    for text in lifts:
        yield Paragraph(text, label=theme.SIGN_ASKS, label_width=LABEL_WIDTH)
