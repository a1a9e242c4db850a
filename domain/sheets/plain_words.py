"""For whoever lives or works there: what was done or found, what to do, by when, and whom to call."""

from collections.abc import Iterator

from domain.dates import date_in, written
from domain.duties.duty import DutyKind, DutyVerdict
from domain.duties.of_job import owing_for
from domain.duties.owing import Owed
from domain.forms.box_group import BoxGroup
from domain.gate.assessment import count_codes
from domain.gate.outcome import Outcome
from domain.gate.report_outcome import is_undecided, outcome_of
from domain.inspection.observation import BY_GRAVITY, Code, Observation, gravest_first
from domain.job.next_due import next_due, next_inspection_typed
from domain.sheets.continuation import lines_of
from domain.sheets.facts import NOTHING, Facts
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
from domain.words import capitalised, on_one_line

TITLE = "In plain words"
_SAID_WIDTH, _SAID_LINES = 60, 8
"""Characters to a line, and lines, of what is said once more here; what is longer is read in its place."""
_WHAT_TO_DO = {
    Code.C1: "Somebody can be hurt as it is. Keep away from it, leave it switched off, and have it made safe now.",
    Code.C2: "It becomes dangerous as soon as one more thing goes wrong. Book an electrician at once.",
    Code.FI: "It may hide a danger that could not be settled on the day. Have it looked into without delay.",
    Code.C3: "It is not dangerous, and safety would gain. Have it improved when it suits.",
}
"""A sentence for each code, so that nobody has to read the finding itself to know what to do."""
_CODES = {
    Code.C1: "**C1** someone can be hurt as it is.",
    Code.C2: "**C2** someone can be hurt when one more thing goes wrong.",
    Code.FI: "**FI** something points to a C1 or C2 and could not be settled on the day.",
    Code.C3: "**C3** not dangerous, but better is possible.",
}
_OUTCOME = (
    "With a C1 or C2 the report is unsatisfactory, with an FI it may be; the installation itself is as it was the day "
    "before."
)
_EMERGENCY = (
    "Shock, smoke or a smell of burning: switch off at the main switch if you safely can, keep away, and call the "
    "emergency services where life or property is at risk. The cable, fuse and meter where the supply comes in belong "
    "to the distributor and the supplier: report damage to them, and break no seal."
)
_WORK_COLUMNS = (
    SheetColumn("No.", 7),
    SheetColumn("Where", 26, centred=False),
    SheetColumn("Code", 10),
    SheetColumn("What to do", 60, centred=False),
)
_TOLD_COLUMNS = (SheetColumn("Whom", 18, centred=False), SheetColumn("What", 94, centred=False))
_TOLD_HEADING = "Who else is told"
_TOLD_TO = {
    DutyKind.NOTIFICATION: "Building control",
    DutyKind.ROUTE: "By which way",
    DutyKind.DISTRIBUTOR: "The distributor",
}
_OPEN = "Whether building control or the distributor must be told is not noted. Ask the firm whom it has told, and how."
_OPEN_BESIDE = "More may have to be told by facts the firm has not noted. Ask the firm whom it has told, and how."
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
                    _said(facts, "Inspected on", _day(facts.job.report.inspected_on)),
                    _said(facts, "By", facts.job.firm.name),
                ),
                (_said(facts, "Where", on_one_line(facts.job.premises.address)),),
            ),
        ),
        *_work_to_do(facts),
        *_told_to_others(facts, only_duties=True),
        *_dates(facts, large=True),
        *_whom_to_call(facts),
        *_codes(facts),
    )
    return TextSheet(
        TITLE, "For whoever lives or works here; the report itself is what counts", blocks, large=True, apart=True
    )


def certificate_in_short(facts: Facts) -> tuple[Block, ...]:
    """What a certificate comes down to, for the top of its guidance."""
    work = facts.job.work
    rows: list[tuple[SheetEntry, ...]] = [
        (
            _said(facts, "What was done", work.description, weight=2),
            _said(facts, "Finished on", _day(work.completed_on)),
        ),
        (_said(facts, "Where", facts.job.premises.address, weight=2), _said(facts, "By", facts.job.firm.name)),
    ]
    if not _is_about_nothing(work.comments):
        rows.append((_said(facts, "Have looked at: seen in older parts, and not part of this work", work.comments),))
    return (SheetGroup("In short", tuple(rows)), *_told_to_others(facts), *_dates(facts), *_whom_to_call(facts))


def _told_to_others(facts: Facts, *, only_duties: bool = False) -> tuple[Block, ...]:
    """Whether building control and the distributor are told of the work, by the answers given; else that it is open.

    A report is about no work, unless its visit did some: what need not be told is left out there.
    """
    owing = owing_for(facts.job)
    rows = [
        (_ours(_TOLD_TO[each.duty.kind]), _ours(f"{each.duty.what}{f' {each.duty.route}' if each.duty.route else ''}"))
        for each in owing.told_to_others
        if not (only_duties and each.duty.verdict is DutyVerdict.NO)
        and not (each.duty.of_findings and not _found_at_the_distributors(facts))
    ]
    if owing.ask_for_others or not (only_duties or owing.is_notification_known):
        if not rows:
            return (SheetNote(_OPEN, _TOLD_HEADING),)
        rows.append((_ours("Still open"), _ours(_OPEN_BESIDE)))
    return (Listing(_TOLD_HEADING, _TOLD_COLUMNS, tuple(rows)),) if rows else ()


def _found_at_the_distributors(facts: Facts) -> bool:
    theirs = {item.number for item in facts.job.items if item.distributors}
    return any(theirs & {*each.items} for each in facts.job.observations)


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


def _work_to_do(facts: Facts) -> tuple[Block, ...]:
    by_haste = gravest_first(facts.job.observations)
    if not by_haste:
        nothing = (
            "Nothing has to be put right for safety now."
            if facts.job.issued
            else "This is a draft; nothing is decided."
        )
        return (SheetNote(nothing, "What to do"),)
    note = "Numbers are those of the observations in section K of the report."
    return (
        Listing(
            "What to do, the most pressing first",
            _WORK_COLUMNS,
            tuple(_to_do(number, each) for number, each in by_haste),
            note,
        ),
    )


def _codes(facts: Facts) -> tuple[Block, ...]:
    """What the codes of this report mean."""
    used = [code for code, count in count_codes(facts.job).items() if count]
    if not used:
        return ()
    return (
        SheetNote(" ".join((*(_CODES[code] for code in BY_GRAVITY if code in used), _OUTCOME)), "What the codes mean"),
    )


def _to_do(number: int, each: Observation) -> Row:
    return (
        _ours(f"{number}"),
        SheetCell(each.where) if each.where.strip() else _ours("See the report"),
        SheetCell(each.code, ValueOrigin.FAILS if each.code.is_pressing else ValueOrigin.TYPED),
        _ours(_WHAT_TO_DO[each.code]),
    )


def _dates(facts: Facts, *, large: bool = False) -> tuple[Block, ...]:
    """Days that others than the firm must keep: what the answers and the document lead to."""
    rows = [_date(owed) for owed in owing_for(facts.job).clocks if owed.duty.who != "you" and owed.due]
    if not rows or next_due(facts.job) is None:
        rows += list(_undated(facts))
    if not rows:
        return ()
    note = "As far as the answers given go; other rules may hold where you are."
    if not large:
        return (Listing("Days to keep", _DATE_COLUMNS, tuple(rows), note),)
    days = (Banner(f"{who.text}: {what.text}", by.text, "", Tone.OPEN, is_day=True) for by, who, what in rows)
    return (SheetNote(note, "Days to keep"), *days)


def _date(owed: Owed) -> Row:
    assert owed.due is not None
    who = capitalised(owed.duty.who)
    return (_ours(written(owed.due.by)), _ours(who), _ours(owed.duty.what))


def _undated(facts: Facts) -> Iterator[Row]:
    typed = next_inspection_typed(facts.job)
    if typed.strip():
        yield (SheetCell(typed), _ours("The owner"), _ours("The next inspection and test"))


def _whom_to_call(facts: Facts) -> tuple[Block, ...]:
    job = facts.job
    row = (
        _said(facts, "Firm", job.firm.name),
        _said(facts, "Telephone or e-mail", job.firm.contact),
        _said(facts, "Number to quote", job.number or "not given yet"),
    )
    switch = (_said(facts, "Main switch", job.main_switch.location),) if job.profile.takes(BoxGroup.ORIGIN) else ()
    return (SheetGroup("Whom to call", ((*row, *switch),)), SheetNote(_EMERGENCY))


def _said(facts: Facts, label: str, text: str, *, weight: int = 1) -> SheetEntry:
    if lines_of(text, _SAID_WIDTH) > _SAID_LINES:
        return SheetEntry(label, "See the first sheets", origin=ValueOrigin.OURS, weight=weight)
    if text.strip():
        return SheetEntry(label, text, weight=weight)
    nothing = NOTHING if facts.job.issued else "not filled in yet"
    return SheetEntry(label, nothing, origin=ValueOrigin.OURS, weight=weight)


def _day(typed: str) -> str:
    day = date_in(typed)
    return written(day) if day else typed


def _ours(text: str) -> SheetCell:
    return SheetCell(text, ValueOrigin.OURS)


def _is_about_nothing(comments: str) -> bool:
    """Nothing was said, or that there was nothing: `N/A, nothing existing was kept`."""
    return says_nothing(comments) or says_nothing(comments.replace(";", ",").replace(".", ",").split(",")[0])
