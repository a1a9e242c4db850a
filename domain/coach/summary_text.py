"""The summary of somebody's practice as plain text that fits one printed page."""

import textwrap
from collections.abc import Iterator

from domain.coach.cautions import cautions
from domain.coach.summary import WRONG_SHOWN, KindLine, Summary, WrongLine
from domain.dates import written
from domain.words import counted

WIDTH = 78
LINES = 60
"""One page of a plain printer."""


def summary_text(summary: Summary) -> str:
    """One page, at most 60 lines of 78 characters."""
    return "\n".join(line.rstrip() for line in _lines(summary)) + "\n"


def _lines(summary: Summary) -> Iterator[str]:
    yield fitted(f"Practice of {summary.who}")
    yield "Practice with cases, not an assessment of competence"
    yield f"On {written(summary.on)}: {counted(summary.answers, 'answer')} on {counted(summary.days_in_all, 'day')}, {_share(summary.right, summary.answers)}"
    yield ""
    yield f"{'Kind':34}{'cases met':>12}{'answers':>9}{'right':>9}{'settled':>10}"
    yield from map(_kind, summary.kinds)
    yield ""
    yield from textwrap.wrap(f"Practise next: {next_words(summary)}", WIDTH)
    yield ""
    yield "Lately"
    for day in summary.days:
        yield f"  {written(day.on):20} {counted(day.answers, 'answer'):>12}, {_share(day.right, day.answers)}"
    yield ""
    open_ = [line for line in summary.wrong if not line.mended]
    yield f"What goes wrong: {counted(len(open_), 'case')} wrong when last asked, {len(summary.wrong) - len(open_)} put right since"
    for line in summary.wrong[:WRONG_SHOWN]:
        yield from _wrong(line)
    if more := len(summary.wrong[WRONG_SHOWN:]):
        yield f"  and {more} more"
    yield ""
    yield "Settled: right often enough to rest a week or longer (Leitner's boxes)."
    yield from textwrap.wrap(cautions()["summary"], WIDTH)


def next_words(summary: Summary) -> str:
    """What to practise next, and when there is something to."""
    kinds = "; ".join(map(_next, summary.practise_next)) or "every case was met and right when last asked"
    if summary.due:
        return f"{kinds}. {counted(summary.due, 'case')} can be asked today."
    return f"{kinds}. The next cases come on {written(summary.again)}." if summary.again else f"{kinds}."


def _next(line: KindLine) -> str:
    return f"{line.kind} ({line.open} wrong when last asked, {line.met} of {line.cases} met)"


def _kind(line: KindLine) -> str:
    met = f"{line.met} of {line.cases}"
    share = f"{_hundredths(line.right, line.answers)} %" if line.answers else "-"
    return f"{line.kind:34}{met:>12}{line.answers:>9}{share:>9}{line.settled:>10}"


def _wrong(line: WrongLine) -> Iterator[str]:
    times = f"{line.times} times, last" if line.times > 1 else "once,"
    yield fitted(f"  {'-' if not line.mended else '+'} {line.told}")
    yield fitted(f"      {line.ask}")
    yield fitted(f"      answered: {line.answered}")
    yield fitted(f"      right:    {line.right} ({line.kind}; wrong {times} {written(line.last)})")


def _share(right: int, of: int) -> str:
    return f"{right} right ({_hundredths(right, of)} %)" if of else "none right"


def fitted(text: str, longest: int = WIDTH) -> str:
    """The text, closed with … where it had to be cut."""
    return text if len(text) <= longest else f"{text[: longest - 1].rstrip()}…"


def _hundredths(part: int, whole: int) -> int:
    """Parts of a hundred, to the nearest, halves up: 1 of 6 is 17."""
    return (200 * part + whole) // (2 * whole)
