"""What else is owed, as paragraphs: whom to tell, which papers and copies, and by which day."""

from collections.abc import Iterator

from domain.dates import written
from domain.duties.duty import DutyKind, DutyVerdict
from domain.duties.owing import Owed, Owing
from domain.words import capitalised
from tui import theme
from tui.widgets.text_page import Paragraph

_LABELS = 14
_VERDICTS = {DutyVerdict.YES: "Yes. ", DutyVerdict.NO: "No. ", DutyVerdict.IF: "It depends. "}
_NAMES = {
    DutyKind.NOTIFICATION: "Notify?",
    DutyKind.ROUTE: "How",
    DutyKind.DISTRIBUTOR: "Distributor",
    DutyKind.PAPER: "Paper",
    DutyKind.COPY: "Copy",
    DutyKind.RENTED: "Rented home",
    DutyKind.INTERVAL: "Next look",
    DutyKind.KEEP: "Keep",
    DutyKind.CAUTION: "Mind",
}


def paragraphs(owing: Owing) -> Iterator[Paragraph]:
    """First what has a day, soonest first; then all else in the order of the tables."""
    dated = owing.clocks
    for owed in dated:
        yield from about(owed)
    if dated:
        yield Paragraph()
    for owed in owing.owed:
        if not owed.due:
            yield from about(owed)


def about(owed: Owed) -> Iterator[Paragraph]:
    """One thing owed: the day or the sort of thing, what and why, how it was counted, and the rule."""
    duty = owed.duty
    label = _short(owed) or _NAMES[duty.kind]
    verdict = _VERDICTS[duty.verdict] if duty.verdict else ""
    who = "" if duty.who == "you" else f"{capitalised(duty.who)}: "
    yield Paragraph(f"{verdict}{who}{duty.what}", label=label, label_width=_LABELS)
    for text in (duty.why, duty.route, counted(owed)):
        if text:
            yield _beneath(text)
    if duty.contested:
        first, second = duty.contested.practices
        says = f"Contested, {duty.contested.about}: {first}; or {second}. {duty.contested.cautious}"
        yield Paragraph(says, theme.ASKS, theme.SIGN_ASKS, theme.ASKS, _LABELS)
    yield _beneath(duty.source.cited)


def counted(owed: Owed) -> str:
    """How its day was counted, and the day by the other way of counting."""
    if owed.due is None:
        return owed.duty.clock.says if owed.duty.clock else ""
    other = f"; counted otherwise, {written(owed.due.other_reading)}" if owed.due.other_reading else ""
    return f"{owed.due.counted}{other}"


def _short(owed: Owed) -> str:
    return f"{owed.due.by:%d/%m/%Y}" if owed.due else ""


def _beneath(text: str) -> Paragraph:
    return Paragraph(text, theme.QUIET, "", theme.QUIET, _LABELS)
