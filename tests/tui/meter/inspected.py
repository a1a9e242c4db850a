"""The keys of an inspection: what stands out item by item, with its observation; the rest of a section at one go."""

from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import cache
from itertools import combinations

from domain.checks.whole_paper.not_there import not_there
from domain.editing.commands import Command, MarkItems, Observe, SetOutcome
from domain.inspection.checklist import ChecklistItem
from domain.inspection.codes.likeness import guidance_for
from domain.inspection.item_outcome import InspectionOutcome
from domain.inspection.observation import Observation
from domain.job.job import Job
from tests.tui.meter.presses import Kind, Stroke
from tests.tui.meter.strokes import letters, others
from tui.screens.inspection_text import where_looked_at

INSPECTION = "inspection"
_PASS, _NOT_THERE = InspectionOutcome.PASS, InspectionOutcome.NOT_APPLICABLE
_REST = {_PASS: "r", _NOT_THERE: "a"}
"""Keys that mark what is still open in a section."""
_KEYS = {
    _PASS: "space",
    _NOT_THERE: "n",
    InspectionOutcome.C1: "1",
    InspectionOutcome.C2: "2",
    InspectionOutcome.C3: "3",
}
_LEAST_GONE = 2
"""Items that make it worth having the record's own denials marked."""
Marks = Mapping[str, InspectionOutcome]


def inspected(
    job: Job, marks: Marks, observations: Sequence[Observation], do: Callable[[Command], object]
) -> Iterator[Stroke]:
    """From the first item that is open to the last, section by section; `do` gets the commands that the keys give."""
    gone = not_there(job)
    if len(gone) < _LEAST_GONE or any(marks[each.number] is not _NOT_THERE for each in gone):
        gone = ()
    else:
        yield from others(INSPECTION, "d", "enter")
        do(MarkItems(items=tuple(each.number for each in gone), mark=_NOT_THERE))
    marked = {outcome.item for outcome in job.inspection} | {each.number for each in gone}
    items = job.items
    left = [at for at, item in enumerate(items) if item.number not in marked]
    cursor = left[0]
    for section in dict.fromkeys(items[at].section for at in left):
        inside = [at for at in left if items[at].section == section]
        common = _commonest(items, inside, marks)
        for at in inside:
            mark = marks[items[at].number]
            if mark is common and not (items[at].lists and mark is _PASS):
                continue
            yield from others(INSPECTION, *rows(cursor, at), _KEYS[mark])
            do(SetOutcome(item=items[at].number, mark=mark))
            for each in (each for each in observations if items[at].number in each.items):
                yield from _observed(each, where_looked_at(job, items[at]), do)
            cursor = min(at + 1, len(items) - 1)
        together = [
            at for at in inside if marks[items[at].number] is common and not (items[at].lists and common is _PASS)
        ]
        if together:
            beside = cursor if items[cursor].section == section else together[-1]
            yield from others(INSPECTION, *rows(cursor, beside), _REST[common], "enter")
            do(MarkItems(items=tuple(items[at].number for at in together), mark=common))
            cursor = min(together[-1] + 1, len(items) - 1)


def _commonest(items: Sequence[ChecklistItem], inside: Sequence[int], marks: Marks) -> InspectionOutcome:
    counted = Counter(marks[items[at].number] for at in inside)
    return max(_REST, key=lambda mark: counted[mark])


def _observed(written: Observation, where: str, do: Callable[[Command], object]) -> Iterator[Stroke]:
    """Its words, taken from the guidance beside the form where a few letters bring them; where it is; the code is picked."""
    few = _fewest(written.finding, written.items)
    yield from letters(INSPECTION, few or written.finding)
    yield from others(INSPECTION, *(["ctrl+y"] if few else []))
    if written.where != where:
        yield from others(INSPECTION, "tab", "tab")
        yield from letters(INSPECTION, written.where)
    yield Stroke("ctrl+o", Kind.KEPT, INSPECTION, fills=2)
    do(Observe(finding=written.finding, code=written.code, where=written.where, items=written.items))


@cache
def _fewest(finding: str, items: tuple[str, ...]) -> str:
    """The fewest words of a finding that bring guidance called just so to the first place."""
    words = finding.casefold().replace(",", "").split()
    tries = sorted((" ".join(each) for count in (1, 2, 3) for each in combinations(words, count)), key=len)
    found = (each for each in tries if (like := guidance_for(each, items)) and like[0].about == finding)
    return next(found, "")


def rows(start: int, end: int) -> list[str]:
    """Arrows from one row of a list to another."""
    return ["down"] * (end - start) or ["up"] * (start - end)
