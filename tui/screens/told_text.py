"""What building control and the distributor are owed, as paragraphs: before a job begins, and before it is issued."""

from collections.abc import Iterator

from domain.duties.duty import DutyKind, DutyVerdict
from domain.duties.owing import Owing
from tui import theme
from tui.keys import key_name
from tui.widgets.text_page import Paragraph

WHO_ASKS = f"Due asks it, {key_name('due')} on the first screen"
"""Where answers are given that a job needs beside its paper."""
_LABELS = 12
_NAMES = {DutyKind.NOTIFICATION: "Notify?", DutyKind.ROUTE: "How", DutyKind.DISTRIBUTOR: "Distributor"}
_VERDICTS = {DutyVerdict.YES: "Yes. ", DutyVerdict.NO: "No. ", DutyVerdict.IF: "It depends. "}


def told_to_others(owing: Owing, who_asks: str) -> Iterator[Paragraph]:
    """One paragraph a duty; while more hangs on an answer, which question that is, and `who_asks` it."""
    for each in owing.told_to_others:
        duty = each.duty
        verdict = _VERDICTS[duty.verdict] if duty.verdict else ""
        says = f"{verdict}{duty.what}{f' {duty.route}' if duty.route else ''}"
        yield Paragraph(says, label=_NAMES[duty.kind], label_width=_LABELS)
    if owing.ask_for_others:
        says = f"More hangs on: {owing.ask_for_others.words} {who_asks}."
        yield Paragraph(says, theme.ASKS, "To tell", theme.ASKS, _LABELS)
    elif not owing.is_notification_known:
        says = "Whether building control is told is open: this job does not say what kind of work it was."
        yield Paragraph(says, theme.ASKS, "To tell", theme.ASKS, _LABELS)
