"""The days that clocks run from, asked as lines; one that cannot be read is typed again, and nothing typed is lost."""

from collections.abc import Iterable, Mapping
from datetime import date

from domain.dates import as_typed, date_in, date_problem
from domain.forms.choice.answers import Answers
from domain.forms.choice.question import typed_questions
from tui.screens.dialogs import FormScreen
from tui.widgets.entry_lines import AskedLine, EntryLines
from tui.widgets.foot import SayLine

_ABOUT = "Dates as 25/11/2026; leave empty what has not happened, or does not matter here."


class DatesScreen(FormScreen):
    """Hands back what was typed once every line is a date or empty."""

    def __init__(self, known: Answers, days: Iterable[str]) -> None:
        """`days` names the days to ask for, besides those that are known."""
        names = frozenset(days)
        lines = tuple(
            AskedLine(each.id, each.label, as_typed(getattr(known, each.id)))
            for each in typed_questions()
            if each.id in names
        )
        super().__init__("When was it? Due days are counted from these", lines, _ABOUT)

    def hand_back(self, typed: Mapping[str, str]) -> None:
        """Stay, and say which line it is, where one is no date."""
        wrong = next((line for line in self.lines if typed[line.name].strip() and not date_in(typed[line.name])), None)
        if wrong is None:
            super().hand_back(typed)
            return
        self.query_one(EntryLines).go_to(wrong.name)
        self.query_one(SayLine).say(f"{wrong.label}: {date_problem(typed[wrong.name])}", bad=True)


def days_in(typed: Mapping[str, str]) -> Mapping[str, date | None]:
    """The days typed, by their names."""
    return {name: date_in(text) for name, text in typed.items()}
