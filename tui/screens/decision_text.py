"""The advice on papers as paragraphs: what, why, why not the others, what to mind, and where it comes from."""

from collections.abc import Iterator

from domain.duties.owing import Owing
from domain.forms.choice.answers import Answers
from domain.forms.choice.choosing import FormChoice
from domain.forms.choice.chosen import ChosenPapers
from domain.forms.choice.question import in_words
from domain.words import capitalised
from tui import theme
from tui.keys import key_name
from tui.screens.told_text import told_to_others
from tui.widgets.text_page import Paragraph

SAFETY = (
    "Work dead wherever it can be: isolate, lock off, prove dead. Test live only where you are competent to and the"
    " current standard, local rules and licensed practice allow it."
)
NUMBERED = (
    "Given with the first thing typed into the job, not by starting it; given once it is kept for good, also where the"
    " draft is laid aside. Until then leaving the job leaves nothing behind."
)
_LABELS = 12


def paragraphs(advice: FormChoice, chosen: ChosenPapers | None, answers: Answers, owing: Owing) -> Iterator[Paragraph]:
    """Everything there is to say before the job is started."""
    yield from _what(advice, chosen)
    yield Paragraph()
    if answers.nation:
        yield _labelled("Where", f"{answers.nation}, as answered before; {key_name('owed')} changes it")
    yield from told_to_others(owing, f"{key_name('owed')} asks it")
    yield Paragraph()
    for form_set, why in advice.against.items():
        yield _labelled(f"{'Or' if form_set in advice.also else 'Not'} {form_set}", why)
    yield _labelled("Boundary", advice.boundary)
    if advice.contested:
        contested = advice.contested
        first, second = contested.practices
        about = capitalised(contested.about)
        yield _labelled(
            "Contested", f"{about}: some give {first}; others {second}. The cautious way: {contested.cautious}"
        )
    yield Paragraph()
    for caution in (*advice.cautions, SAFETY):
        yield Paragraph(caution, label=theme.SIGN_SNAG, label_width=2)
    yield Paragraph()
    if advice.signatures:
        yield _labelled("Signed by", advice.signatures)
    if advice.pack:
        yield _labelled("The pack", "; ".join(advice.pack))
    if advice.source:
        yield Paragraph(advice.source.cited, theme.QUIET, "Source", theme.QUIET, _LABELS)
    yield _labelled("Number", NUMBERED)
    for question, answer in in_words(answers):
        yield Paragraph(f"{question} {answer}", theme.QUIET, "Answered", theme.QUIET, _LABELS)


def _what(advice: FormChoice, chosen: ChosenPapers | None) -> Iterator[Paragraph]:
    if chosen and chosen.because:
        yield Paragraph(f"{chosen.form_set.profile.title} ({chosen.form_set})", theme.HEAD)
        yield Paragraph(f"Taken against the advice, because: {chosen.because}", theme.ASKS)
        yield Paragraph()
    if advice.stop:
        yield Paragraph("The work must not go ahead as it stands", theme.FAILS, theme.SIGN_FAILS, theme.FAILS)
    yield Paragraph(_advised(advice), theme.HEAD)
    yield Paragraph(advice.why)
    for paper in advice.papers:
        if paper.form_set is not advice.form_set or paper.form_set is None or paper.count > 1:
            yield Paragraph(f"{paper.called}{', one for each circuit' if paper.count > 1 else ''}", label="-")


def _advised(advice: FormChoice) -> str:
    if advice.form_set:
        beside = f", and {advice.beside.profile.title} ({advice.beside}) beside it" if advice.beside else ""
        return f"{advice.form_set.profile.title} ({advice.form_set}){beside}"
    if advice.starts:
        return f"No form set of BS 7671 is required; advisable is {advice.starts.profile.title} ({advice.starts})"
    return "No form set of BS 7671 is required"


def _labelled(label: str, text: str) -> Paragraph:
    return Paragraph(text, label=label, label_width=_LABELS)
