"""The inspection against the rest of the record: marks that cannot stand beside what else it says."""

import tomllib
from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from importlib.resources import files
from typing import Annotated

from pydantic import Field, model_validator

from domain.checks.shared.finding_factory import FindingFactory, short_mark
from domain.checks.shared.phrases import listed, phrase
from domain.checks.whole_paper.agreement_circuits import CIRCUITS
from domain.checks.whole_paper.agreement_origin import ORIGIN
from domain.checks.whole_paper.agreement_record import Condition, Names, Record
from domain.edition import Edition
from domain.inspection.checklist import ChecklistItem
from domain.inspection.item_outcome import InspectionOutcome
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.place_in_words import described
from domain.place import Place
from domain.source import Source
from domain.value import Line, Value

_found = FindingFactory("agreement")
_NAMED = 4
"""More names than this are counted."""
CONDITIONS: Mapping[str, Condition] = {**ORIGIN, **CIRCUITS}
"""All that a row of the table can name."""


class AgreementRule(Value):
    """One row: which mark cannot stand at which items, and beside what."""

    initial: tuple[Line, ...] = ()
    periodic: tuple[Line, ...] = ()
    mark: InspectionOutcome
    when: tuple[Line, ...] = ()
    found: tuple[Line, ...] = ()
    regulation: Line = ""
    even_noted: bool = False
    beside: tuple[Line, ...] = ()
    asks: bool = False
    case: Annotated[Line, Field(min_length=1)]

    @model_validator(mode="after")
    def _says_what_it_rests_on(self) -> "AgreementRule":
        if bool(self.when) == bool(self.found):
            raise ValueError(f"{self.case}: a rule rests on `when` or on `found`")
        if unknown := set(self.when) - set(CONDITIONS):
            raise ValueError(f"{self.case}: there is no condition {min(unknown)!r}")
        return self

    def items(self, checklist: str) -> tuple[str, ...]:
        """The items it is about, on the list of that name."""
        return {"initial": self.initial, "periodic": self.periodic}.get(checklist, ())


class Agreement(Value):
    """All rules, with where they come from."""

    edition: Edition
    """Of the lists whose items it names."""
    source: Source
    rule: tuple[AgreementRule, ...]


@cache
def agreement_rules() -> Agreement:
    """The table as it stands beside this file."""
    return agreement_in(files("domain.checks.whole_paper").joinpath("agreement.toml").read_text(encoding="utf-8"))


def agreement_in(text: str) -> Agreement:
    """The rules a TOML text holds; refuses a condition nobody knows, and a row that rests on nothing."""
    data = tomllib.loads(text)
    return Agreement.model_validate(data | {"edition": Edition[data["edition"]]})


def agreement(job: Job, findings: Sequence[Finding]) -> Iterator[Finding]:
    """Marks that the record denies, each once; `findings` is what the other checks found on the job."""
    marks = {outcome.item: outcome.mark for outcome in job.inspection}
    if not marks:
        return
    if all(marks.get(each.number) is InspectionOutcome.NOT_APPLICABLE for each in job.items):
        yield _found(job, _at(next(iter(marks))), Severity.FAILS, "all-n-a", measured="N/A")
        return
    yield from _by_rules(Record(job, tuple(findings)), marks)


def _by_rules(record: Record, marks: Mapping[str, InspectionOutcome]) -> Iterator[Finding]:
    rules, checklist = agreement_rules(), record.job.profile.checklist
    items = {each.number: each for each in record.job.items}
    for rule in rules.rule:
        denied = [items[item] for item in rule.items(checklist) if item in items and marks.get(item) is rule.mark]
        if not denied or any(marks.get(item) is not rule.mark for item in rule.beside):
            continue
        names = _rests_on(record, rule)
        if names:
            for item in denied:
                yield _denied(record.job, rule, item, names, rules)


def _rests_on(record: Record, rule: AgreementRule) -> Names:
    """What of the record denies the mark; () where nothing does."""
    if rule.found:
        return _found_by_others(record, rule)
    held = [CONDITIONS[name](record) for name in rule.when]
    return held[0] if all(held) else ()


def _found_by_others(record: Record, rule: AgreementRule) -> Names:
    """Where other checks found it, each place once; what a person has answered for stands."""
    places = [finding.place for finding in record.findings if _is_meant(record.job, rule, finding)]
    return tuple(dict.fromkeys(_named(record.job, place) for place in places))


def _is_meant(job: Job, rule: AgreementRule, finding: Finding) -> bool:
    if finding.severity is Severity.FAILS:
        if not job.profile.states_a_condition:
            return False
    elif not rule.even_noted:
        return False
    if not any(_answers_to(each, finding) for each in rule.found) or finding.case in _ALLOWED:
        return False
    if rule.regulation not in {"", finding.values.get("regulation", "")}:
        return False
    return finding.severity is not Severity.ASK or not any(each.answers(finding) for each in job.explanations)


_ALLOWED = frozenset({"missing-as-excepted"})
"""What is recorded as an exception that the standard allows."""


def _answers_to(name: str, finding: Finding) -> bool:
    check, _, section = name.partition("@")
    return check in {finding.check, finding.id} and section in {"", finding.place.section}


def _named(job: Job, place: Place) -> str:
    board = job.board(place.board)
    circuit = board.circuit(place.circuit) if board else None
    if board:
        return f"{board.name} {circuit.number.strip() or phrase('no-number')}" if circuit else board.name
    return described(job, place)


def _denied(job: Job, rule: AgreementRule, item: ChecklistItem, names: Names, rules: Agreement) -> Finding:
    said = {"title": item.title.partition(":")[0], "what": _few(names)}
    typed = {"mark": rule.mark.value, "record": short_mark(names)}
    severity = Severity.ASK if rule.asks else Severity.FAILS
    note = job.edition.of_older(rules.edition) or rules.source.note
    source = rules.source.model_copy(update={"table": item.regulations or rules.source.table, "note": note})
    place, mark = _at(item.number), rule.mark.value
    return _found(job, place, severity, rule.case, source=source, measured=mark, typed=typed, said=said)


def _few(names: Sequence[str]) -> str:
    if len(names) <= _NAMED:
        return listed(names)
    return phrase("and-more", names=", ".join(names[:_NAMED]), count=len(names) - _NAMED)


def _at(item: str) -> Place:
    return Place(section="inspection", item=item)
