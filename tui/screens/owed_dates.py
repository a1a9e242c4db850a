"""The days that clocks run from, asked as lines; one that cannot be read is typed again, and nothing typed is lost."""

from collections.abc import Iterable, Mapping
from datetime import date

from domain.dates import as_typed, date_in, date_problem
from domain.forms.choice.answers import Answers
from domain.forms.choice.question import typed_questions
from tui.screens.dialogs import FormScreen
from tui.widgets.entry_lines import AskedLine

_ABOUT = "Dates as 25/11/2026; leave empty what has not happened, or does not matter here."


def dates_form(known: Answers, days: Iterable[str]) -> FormScreen:
    """Asks for days until every line is a date or empty; `days` names those to ask for, besides those that are known."""
    names = frozenset(days)
    lines = tuple(
        AskedLine(each.id, each.label, as_typed(getattr(known, each.id)))
        for each in typed_questions()
        if each.id in names
    )

    def refused(typed: Mapping[str, str]) -> tuple[str, str] | None:
        wrong = next((line for line in lines if typed[line.name].strip() and not date_in(typed[line.name])), None)
        return (wrong.name, f"{wrong.label}: {date_problem(typed[wrong.name])}") if wrong else None

    return FormScreen("When was it? Due days are counted from these", lines, _ABOUT, refused=refused)


def days_in(typed: Mapping[str, str]) -> Mapping[str, date | None]:
    """The days typed, by their names."""
    return {name: date_in(text) for name, text in typed.items()}
