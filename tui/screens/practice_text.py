"""A practice case as paragraphs: the story with its numbered answers, and what is said once one was given."""

from collections.abc import Iterator
from datetime import date

from rich.style import Style

from domain.coach.answered import GivenAnswer
from domain.coach.case import Case
from domain.coach.sitting import Sitting
from domain.dates import written
from tui import theme
from tui.keys import key_name
from tui.widgets.text_page import Paragraph

_LABELS = 4
_BENEATH = 6
_YOURS = " (yours)"


def question_of(sitting: Sitting) -> Iterator[Paragraph]:
    """The story, the question, and its answers with their numbers; once answered, which was right and which was given."""
    case, given = sitting.case, sitting.given
    if case is None:
        return
    yield Paragraph(case.told)
    yield Paragraph()
    yield Paragraph(case.ask, theme.HEAD)
    for number, meaning in enumerate(sitting.offered, 1):
        sign, style = _sign(case, given, meaning)
        words = f"{case.answers[meaning]}{_YOURS if given and meaning == given.answer else ''}"
        yield Paragraph(words, style, f"{number} {sign}".rstrip(), style if sign else theme.HEAD, _LABELS)


def verdict_on(sitting: Sitting, on: date) -> Iterator[Paragraph]:
    """Right or wrong, the reason, what can hurt, the rule, and when the case comes again."""
    case, given = sitting.case, sitting.given
    if case is None or given is None:
        return
    yield Paragraph(
        f"{f'{theme.SIGN_GOOD} Right' if given.right else f'{theme.SIGN_FAILS} Wrong'}. {_otherwise(case, given)}".rstrip(),
        _style(given),
    )
    yield Paragraph(case.why, label="Why", label_width=_BENEATH)
    yield Paragraph(case.source.cited, theme.QUIET, "Rule", theme.QUIET, _BENEATH)
    if case.caution:
        yield Paragraph(case.caution, theme.ASKS, theme.SIGN_SNAG, theme.ASKS, _BENEATH)
    again = sitting.comes_again
    when = "later today" if again is None or again <= on else f"on {written(again)}"
    yield Paragraph(f"It comes again {when}.", theme.QUIET)


def done_for_today(sitting: Sitting) -> Iterator[Paragraph]:
    """Nothing is due: say so, and when there is more."""
    yield Paragraph("All cases are answered for today", theme.HEAD)
    if again := sitting.comes_again:
        yield Paragraph(f"The next ones come on {written(again)}; what went right rests longer each time.")
    yield Paragraph(f"{key_name('practice-summary')} shows how it stands, for you and for a supervisor.")


def _sign(case: Case, given: GivenAnswer | None, meaning: str) -> tuple[str, Style]:
    if given is None:
        return "", theme.PLAIN
    if case.is_right(meaning):
        return theme.SIGN_GOOD, theme.GOOD
    return (theme.SIGN_FAILS, theme.FAILS) if meaning == given.answer else ("", theme.PLAIN)


def _otherwise(case: Case, given: GivenAnswer) -> str:
    if given.answer == case.right:
        return ""
    also = "; or: ".join(case.answers[each] for each in case.also)
    usual = f"The usual answer is: {case.right_words}"
    return (
        f"{usual}; accepted too: {also}"
        if also and not given.right
        else usual
        if also
        else f"The answer is: {case.right_words}"
    )


def _style(given: GivenAnswer) -> Style:
    return theme.GOOD if given.right else theme.FAILS
