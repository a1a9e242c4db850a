"""The summary of somebody's practice as a sheet of its own, for a supervisor."""

from collections.abc import Iterator

from domain.coach.cautions import cautions
from domain.coach.summary import WRONG_SHOWN, KindLine, Summary, WrongLine
from domain.coach.summary_text import fitted, next_words
from domain.dates import written
from domain.sheets.sheet import (
    Banner,
    Listing,
    Row,
    SheetCell,
    SheetColumn,
    SheetEntry,
    SheetGroup,
    SheetNote,
    TextSheet,
    Tone,
)
from domain.words import capitalised

TITLE = "Summary of practice"
_NAME, _STORY, _ANSWER = 60, 80, 60
"""Letters that one page has room for: of a name, and of a story and an answer in the list of what goes wrong."""


def summary_sheet(summary: Summary) -> TextSheet:
    """One page, however much was answered."""
    return TextSheet(
        TITLE,
        "Certificates and reports for electrical work: answers to practice cases",
        (
            Banner(
                "Practice with cases",
                "Not an assessment of competence",
                cautions()["summary"],
                Tone.OPEN,
            ),
            SheetGroup("Who and when", _opening(summary)),
            Listing("By kind of case", _KIND_COLUMNS, tuple(_kind(line) for line in summary.kinds)),
            SheetNote("Settled: right often enough to rest a week or longer (Leitner's boxes)."),
            SheetNote(capitalised(next_words(summary)), "Practise next"),
            SheetNote("; ".join(_days(summary)) or "No day of practice yet.", "The last days of practice"),
            _went_wrong(summary),
        ),
        opens=True,
    )


_KIND_COLUMNS = (
    SheetColumn("Kind", 40, centred=False),
    SheetColumn("Cases met", 14),
    SheetColumn("Answers", 12),
    SheetColumn("Right", 12),
    SheetColumn("Settled", 12),
)
_WRONG_COLUMNS = (
    SheetColumn("Case and question", 46, centred=False),
    SheetColumn("Answered", 24, centred=False),
    SheetColumn("Right answer", 24, centred=False),
    SheetColumn("Last wrong", 18, centred=False),
)


def _went_wrong(summary: Summary) -> Listing | SheetNote:
    if not summary.wrong:
        return SheetNote("Nothing so far.", "What went wrong")
    mended = sum(line.mended for line in summary.wrong)
    heading = f"What went wrong: {len(summary.wrong) - mended} wrong when last asked, {mended} put right since"
    return Listing(heading, _WRONG_COLUMNS, tuple(map(_wrong, summary.wrong[:WRONG_SHOWN])))


def _opening(summary: Summary) -> tuple[tuple[SheetEntry, ...], ...]:
    return (
        (SheetEntry("Who practised", fitted(summary.who, _NAME), weight=2), SheetEntry("Seen on", written(summary.on))),
        (
            SheetEntry("Answers", str(summary.answers)),
            SheetEntry("Right", str(summary.right)),
            SheetEntry("Days of practice", str(summary.days_in_all)),
        ),
    )


def _kind(line: KindLine) -> Row:
    texts = (str(line.kind), f"{line.met} of {line.cases}", str(line.answers), str(line.right), str(line.settled))
    return tuple(map(SheetCell, texts))


def _days(summary: Summary) -> Iterator[str]:
    return (f"{written(day.on)}: {day.right} of {day.answers} right" for day in summary.days)


def _wrong(line: WrongLine) -> Row:
    times = f"{written(line.last)}, {line.times} times" if line.times > 1 else written(line.last)
    mended = "; right since" if line.mended else ""
    asked = f"{fitted(line.told, _STORY)} {line.ask}"
    return tuple(map(SheetCell, (asked, fitted(line.answered, _ANSWER), fitted(line.right, _ANSWER), times + mended)))
