"""What the first sheets tell in words, against what the paper records: the work, the condition, the parties."""

import re
from collections.abc import Iterator

from domain.checks.shared.board_words import tells_of_a_replaced_consumer_unit
from domain.checks.shared.circuits_in_use import ways_in_use
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.uses import told_of_vehicles, use_of
from domain.inspection.observation import Code
from domain.job.box import answers_in
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.work import NEW, REPLACED_UNIT
from domain.place import Place
from domain.value import says_none, says_nothing
from domain.words import joined

_found = FindingFactory("work-told")
_REWIRED = re.compile(
    r"\b(?:full|complete|whole|total)(?:ly)?(?: [\w-]+){0,2} re-?wir\w*|\bre-?wired? (?:throughout|completely|entirely)\b",
    re.IGNORECASE,
)
_OF_A_BOARD = re.compile(
    r"\bunits?\b|board|\bC\.?U\.?\b|\bDB|fuse|switch|panel|breaker|distribution|\bRCBOs?\b|\bMCBs?\b|\bRCDs?\b",
    re.IGNORECASE,
)
_LATER = re.compile(r"\bfuture\b|\bready for\b|\bprovision|\blater\b|\bby others?\b|\bexisting\b", re.IGNORECASE)
_PUT_IN = re.compile(
    r"\binstall\w*|\bfit(?:ted|ting)?\b|\bnew\b|\badd\w*|\bsuppl(?:y|ies|ied)\b|\bput in\b|\bwir\w+", re.IGNORECASE
)
_PART = re.compile(r"[.;:,\n]|\bbut\b|\bapart\b|\bexcept", re.IGNORECASE)
_DENIES = re.compile(r"\b(?:no|not|none|nothing|without|never|nor|neither|free)\b", re.IGNORECASE)
_DANGER = re.compile(
    r"\bdanger(?:s|ous(?:ly)?)?\b|\bunsafe\b|\bhazard(?:s|ous)?\b|\bburn(?:t|ed|ing)\b|\bscorch\w*|\boverheat\w*"
    r"|\bexposed live\b|\blive parts? (?:exposed|accessible)\b|\bunsatisfactory\b",
    re.IGNORECASE,
)
_IS_PAST = re.compile(
    r"\bprevious|\bearlier\b|\bpast\b|\bsince\b|\bburning stove|\bformer|\blast (?:report|inspection)|\bput right\b|\bremed|\brectif|\breplaced\b|\brepaired\b"
    r"|\b(?:danger|hazard|warning) (?:labels?|notices?|signs?)\b",
    re.IGNORECASE,
)
"""What was so once, or is a notice of danger."""
_PRAISE = re.compile(
    r"\bexcellent\b|\bno (?:defects?|faults?|observations?|dangers?|deficienc\w+)\b|(?<!un)\bsatisfactory\b",
    re.IGNORECASE,
)
_LIMITS = re.compile(
    r"\bapart from\b|\bexcept|\bother than\b|\bbut\b|\bonce\b|\bwhen\b|\bunless\b|\blisted\b|\bbelow\b", re.IGNORECASE
)
_GRAVE = {Code.C1, Code.C2, Code.FI}
_UNSEEN = re.compile(
    r"\bnone\b|\bno (?:earlier )?records?\b|\bnot (?:seen|known|available|found)\b|\bunknown\b", re.IGNORECASE
)


def work_told(job: Job) -> Iterator[Finding]:
    """No sentence of the first sheets denies what the boxes, schedules or observations say. All are questions."""
    if job.profile.states_a_condition:
        yield from _condition(job)
        yield from _records(job)
    elif not job.profile.covers_one_circuit:
        yield from _kind(job)
        yield from _charging_point(job)
    yield from _postcodes(job)


def _condition(job: Job) -> Iterator[Finding]:
    """The condition in words, and what the observations are coded."""
    words, place = job.report.general_condition, Place(section="report", box="general_condition")
    grave = [each for each in job.observations if each.code in _GRAVE]
    typed = {"grave": " ".join(each.code.value for each in grave)}
    parts = [part for part in _PART.split(words) if not _DENIES.search(part) and not _IS_PAST.search(part)]
    named = [found[0] for part in parts if (found := _DANGER.search(part))]
    if named and not grave:
        yield _found(job, place, Severity.ASK, "danger-not-observed", typed=typed, said={"named": named[0].casefold()})
    praise, worst = _PRAISE.search(words), next((each.code for each in grave if each.code is not Code.FI), None)
    if praise and worst and not named and not _LIMITS.search(words):
        said = {"named": praise[0].casefold(), "code": worst.value}
        yield _found(job, place, Severity.ASK, "praise-of-what-is-unsafe", typed=typed, said=said)


def _records(job: Job) -> Iterator[Finding]:
    """Records that were seen are held by somebody."""
    seen, holder = job.premises.records.strip(), job.premises.records_held_by
    if not says_nothing(seen) and not _UNSEEN.search(seen) and says_none(holder):
        place = Place(section="premises", box="records_held_by")
        yield _found(job, place, Severity.ASK, "records-of-nobody", typed={"records": seen}, said={"records": seen})


def _kind(job: Job) -> Iterator[Finding]:
    """New, an addition, an alteration or a replaced consumer unit, as the description has it."""
    kinds, told = set(answers_in(job.work.kind)), job.work.description.strip()
    if not kinds or says_nothing(told):
        return
    place, typed = Place(section="work", box="kind"), {"description": told}
    said = {"kind": job.work.kind.strip()}
    if _REWIRED.search(told) and kinds <= {"an addition", REPLACED_UNIT}:
        yield _found(job, place, Severity.ASK, "rewired-throughout", typed=typed, said=said)
    elif tells_of_a_replaced_consumer_unit(told) and not kinds & {NEW, REPLACED_UNIT}:
        yield _found(job, place, Severity.ASK, "board-replaced", typed=typed, said=said)
    elif kinds == {REPLACED_UNIT} and not _OF_A_BOARD.search(told):
        yield _found(job, place, Severity.ASK, "no-board-told", typed=typed, said=said)


def _charging_point(job: Job) -> Iterator[Finding]:
    """A charging point that was put in has a circuit on the schedules."""
    told = job.work.description.strip()
    if not told_of_vehicles(told) or not _PUT_IN.search(told) or _LATER.search(told):
        return
    ways = tuple(ways_in_use(job))
    if ways and not any(use_of(way.circuit).vehicle or told_of_vehicles(way.circuit.description) for way in ways):
        yield _found(job, Place(section="work", box="description"), Severity.ASK, "no-such-circuit")


def _postcodes(job: Job) -> Iterator[Finding]:
    """One address has one postcode."""
    client, premises = job.client, job.premises
    ours, theirs = joined(client.postcode), joined(premises.postcode)
    same = joined(client.address) == joined(premises.address) != ""
    if (
        same
        and ours
        and theirs
        and ours != theirs
        and not says_none(client.postcode)
        and not says_none(premises.postcode)
    ):
        said = {"client": client.postcode.strip(), "premises": premises.postcode.strip()}
        typed = {"premises_postcode": premises.postcode.strip()}
        yield _found(
            job, Place(section="client", box="postcode"), Severity.ASK, "two-postcodes", typed=typed, said=said
        )
