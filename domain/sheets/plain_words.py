"""For whoever lives or works there: what was done or found, what to do, by when, and whom to call; never over a page."""

from collections.abc import Iterator

from domain.dates import written
from domain.duties.of_job import owing_for
from domain.duties.owing import Owed
from domain.forms.box_group import BoxGroup
from domain.gate.assessment import count_codes
from domain.gate.outcome import Outcome
from domain.gate.report_outcome import is_undecided, outcome_of
from domain.inspection.observation import BY_GRAVITY, Code, Observation
from domain.job.next_due import next_due, next_inspection_typed
from domain.sheets.continuation import lines_of
from domain.sheets.facts import NOT_STATED, Facts
from domain.sheets.sheet import (
    Banner,
    Block,
    Listing,
    Row,
    SheetCell,
    SheetColumn,
    SheetEntry,
    SheetGroup,
    SheetNote,
    TextSheet,
    Tone,
    ValueOrigin,
)
from domain.value import says_nothing

TITLE = "In plain words"
_LINES_MOST = 28
_DATES_MOST = 5
_TEXT_MOST = 150
"""Lines of observations, dates, and letters that leave the page its end; the rest is on the sheets named."""

_HOW_SOON = {
    Code.C1: "Now. Keep away from it and leave it off",
    Code.C2: "Urgently: book an electrician at once",
    Code.FI: "Without delay: have it looked into",
    Code.C3: "When it suits; safety would gain",
}
_CODES = (
    "**C1** someone can be hurt as it is. **C2** someone can be hurt when one more thing goes wrong. **FI** something "
    "points to a C1 or C2 and could not be settled on the day. **C3** not dangerous, but better is possible. With a C1 "
    "or C2 the report is unsatisfactory, with an FI it may be; the installation itself is as it was the day before."
)
_EMERGENCY = (
    "Shock, smoke or a smell of burning: switch off at the main switch if you safely can, keep away, and call the "
    "emergency services where life or property is at risk. The cable, fuse and meter where the supply comes in belong "
    "to the distributor and the supplier: report damage to them, and break no seal."
)
_WORK_COLUMNS = (
    SheetColumn("No.", 6),
    SheetColumn("What was found", 56, centred=False),
    SheetColumn("Where", 20, centred=False),
    SheetColumn("How soon", 30, centred=False),
)
_DATE_COLUMNS = (
    SheetColumn("By", 18, centred=False),
    SheetColumn("Who", 16, centred=False),
    SheetColumn("What", 78, centred=False),
)


def report_in_plain_words(facts: Facts) -> TextSheet:
    """The page of a condition report for its householder."""
    blocks: tuple[Block, ...] = (
        _banner(facts),
        SheetGroup(
            "What was looked at",
            (
                (
                    _said("Where", facts.job.premises.address, weight=2),
                    _said("Inspected on", facts.job.report.inspected_on),
                    _said("By", facts.job.firm.name),
                ),
            ),
        ),
        _work_to_do(facts),
        *_dates(facts),
        *_whom_to_call(facts),
        SheetNote(_CODES, "What the codes mean"),
    )
    return TextSheet(TITLE, "For whoever lives or works here; the report itself is what counts", blocks)


def certificate_in_short(facts: Facts) -> tuple[Block, ...]:
    """What a certificate comes down to, for the top of its guidance."""
    work = facts.job.work
    rows: list[tuple[SheetEntry, ...]] = [
        (_said("What was done", work.description, weight=2), _said("Finished on", work.completed_on)),
        (_said("Where", facts.job.premises.address, weight=2), _said("By", facts.job.firm.name)),
    ]
    if not says_nothing(work.comments):
        rows.append((_said("Have looked at: seen in older parts, and not part of this work", work.comments),))
    return (SheetGroup("In short", tuple(rows)), *_dates(facts), *_whom_to_call(facts))


def _banner(facts: Facts) -> Banner:
    counts = count_codes(facts.job)
    pressing = sum(count for code, count in counts.items() if code.is_pressing)
    rest = counts.get(Code.C3, 0)
    beneath = f"{_things(pressing)} to have dealt with, {_things(rest)} worth improving."
    outcome = outcome_of(facts.job)
    if facts.job.issued is None and (outcome is not Outcome.UNSATISFACTORY or is_undecided(facts.job)):
        return Banner("In short", "Not decided yet", "This is a draft.", Tone.OPEN)
    if outcome is Outcome.UNSATISFACTORY:
        return Banner("In short", "Work is needed", beneath, Tone.BAD)
    if outcome.is_to_put_right:
        return Banner("In short", "Satisfactory, and something must be looked into without delay", beneath, Tone.OPEN)
    return Banner("In short", "Nothing found that must be put right", beneath if rest else "", Tone.GOOD)


def _things(count: int) -> str:
    return f"{count or 'no'} {'thing' if count == 1 else 'things'}"


def _work_to_do(facts: Facts) -> Block:
    numbered = list(enumerate(facts.job.observations, start=1))
    if not numbered:
        return SheetNote("Nothing has to be put right for safety now.", "What to do")
    sorted_by_haste = sorted(numbered, key=lambda each: (BY_GRAVITY.index(each[1].code), each[0]))
    rows: list[Row] = []
    lines = 0
    for number, each in sorted_by_haste:
        row = _found(number, each)
        lines += max(lines_of(cell.text, column.width) for cell, column in zip(row, _WORK_COLUMNS, strict=True))
        if lines > _LINES_MOST:
            break
        rows.append(row)
    if more := len(numbered) - len(rows):
        rows.append(
            (
                SheetCell(""),
                _ours(f"And {more} more, under Observations on the first sheets"),
                SheetCell(""),
                SheetCell(""),
            )
        )
    return Listing("What to do, the most pressing first", _WORK_COLUMNS, tuple(rows))


def _found(number: int, each: Observation) -> Row:
    return (
        _ours(f"{number}"),
        _ours(_clipped(each.finding)),
        _ours(_clipped(each.where, _TEXT_MOST // 3) or NOT_STATED),
        SheetCell(
            f"{each.code}: {_HOW_SOON[each.code]}",
            ValueOrigin.FAILS if each.code.is_pressing else ValueOrigin.TYPED,
        ),
    )


def _dates(facts: Facts) -> tuple[Block, ...]:
    """Days that others than the firm must keep: what the answers and the document lead to."""
    rows = [_date(owed) for owed in owing_for(facts.job).clocks if owed.duty.who != "you" and owed.due][:_DATES_MOST]
    if not rows or next_due(facts.job) is None:
        rows += list(_undated(facts))
    note = "As far as the answers given go; other rules may hold where you are."
    return (Listing("Days to keep", _DATE_COLUMNS, tuple(rows), note),) if rows else ()


def _date(owed: Owed) -> Row:
    assert owed.due is not None
    who = f"{owed.duty.who[:1].upper()}{owed.duty.who[1:]}"
    return (_ours(written(owed.due.by)), _ours(who), _ours(owed.duty.what))


def _undated(facts: Facts) -> Iterator[Row]:
    typed = next_inspection_typed(facts.job)
    if typed.strip():
        yield (_ours(_clipped(typed, _TEXT_MOST // 3)), _ours("The owner"), _ours("The next inspection and test"))


def _whom_to_call(facts: Facts) -> tuple[Block, ...]:
    job = facts.job
    row = (
        _said("Firm", job.firm.name),
        _said("Telephone or e-mail", job.firm.contact),
        _said("Number to quote", job.number or "not given yet"),
    )
    switch = (_said("Main switch", job.main_switch.location),) if job.profile.takes(BoxGroup.ORIGIN) else ()
    return (SheetGroup("Whom to call", ((*row, *switch),)), SheetNote(_EMERGENCY))


def _said(label: str, text: str, *, weight: int = 1) -> SheetEntry:
    line = _clipped(text)
    return SheetEntry(
        label, line or NOT_STATED, standing=ValueOrigin.TYPED if line else ValueOrigin.OURS, weight=weight
    )


def _ours(text: str) -> SheetCell:
    return SheetCell(text, ValueOrigin.OURS)


def _clipped(text: str, most: int = _TEXT_MOST) -> str:
    """One line of a text, cut between words where it is long; the sheet it comes from holds it in full."""
    line = " ".join(text.split())
    if len(line) <= most:
        return line
    return f"{line[:most].rsplit(' ', 1)[0]} …"
