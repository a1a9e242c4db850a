"""What a form set asks for and a job does not hold yet, or holds and cannot stand: not wrong, but a gap."""

import re
from collections.abc import Iterator

from pydantic import BaseModel

from domain.forms.box_group import BoxGroup
from domain.forms.form_set import FormSet
from domain.gate.box_conflicts import box_conflicts
from domain.gate.letter_gaps import letter_gaps
from domain.gate.report_outcome import asks_inspector, is_undecided
from domain.gate.sentence import gap
from domain.inspection.item_outcome import InspectionOutcome, ItemOutcome, lacks_names, marks_for
from domain.inspection.observation import gravest
from domain.inspection.outcome_rule import outcome_rule
from domain.job.box import boxes_of, typed_in
from domain.job.circuit import Circuit
from domain.job.finding import DAYS_CHECK, Finding, Gap, Severity
from domain.job.job import Job, sections_for
from domain.job.reading import Meaning, Reading
from domain.letters import letter_problem
from domain.place import Place
from domain.value import says_nothing

UNOBSERVED = "unobserved"
"""The kind of gap of a failing finding on a report."""


def gaps_of(job: Job, findings: tuple[Finding, ...] = ()) -> tuple[Gap, ...]:
    """Every gap, in the order a person meets the boxes. Failing `findings` of a report need observations."""
    return (
        *_choice_gaps(job),
        *_reason_gaps(job),
        *_section_gaps(job),
        *_board_gaps(job),
        *_limitation_gaps(job),
        *_inspection_gaps(job),
        *_observation_gaps(job, findings),
        *_decision_gaps(job),
        *letter_gaps(job),
    )


def _box_gaps(owner: BaseModel, place: Place, form_set: FormSet) -> Iterator[Gap]:
    misplaced = box_conflicts(owner)
    for name, box in boxes_of(type(owner)).items():
        if not box.is_asked(form_set):
            continue
        typed = typed_in(owner, name)
        if not typed.strip():
            if box.is_required(form_set, owner):
                yield gap("not-taken" if box.is_measured else "not-filled-in", _box_of(place, name))
        elif problem := box.problem(typed, form_set) or letter_problem(typed):
            yield gap("cannot-stand", _box_of(place, name), problem=problem)
        elif name in misplaced:
            yield gap("conflict", _box_of(place, name), conflict=misplaced[name])


def _box_of(place: Place, name: str) -> Place:
    return place.model_copy(update={"box": name})


def _choice_gaps(job: Job) -> Iterator[Gap]:
    if job.chosen.is_override and not job.chosen.because.strip():
        yield gap("override-without-reason", Place(section="chosen"))


def _reason_gaps(job: Job) -> Iterator[Gap]:
    if not job.amended_to:
        yield gap("edition-not-named", Place(section="chosen"))
    if job.replaces.strip() and not job.replaces_because.strip():
        yield gap("replaces-without-reason", Place(section="signatures"), replaces=job.replaces)


def _section_gaps(job: Job) -> Iterator[Gap]:
    for section in sections_for(job.form_set):
        yield from _box_gaps(getattr(job, section), Place(section=section), job.form_set)


def _board_gaps(job: Job) -> Iterator[Gap]:
    if not job.profile.takes(BoxGroup.CIRCUIT):
        return
    if not job.boards:
        yield gap("no-board", Place(section="boards"))
    if job.profile.covers_one_circuit and len(job.circuits()) > 1:
        yield gap("too-many-circuits", Place(section="boards"))
    for board in job.boards:
        place = Place(section="boards", board=board.id)
        yield from _box_gaps(board, place, job.form_set)
        if not board.circuits:
            yield gap("no-circuit", place)
        for circuit in board.circuits:
            at = place.model_copy(update={"circuit": circuit.id})
            yield from _box_gaps(circuit, at, job.form_set)
            yield from _continuity_gap(circuit, at)


def _continuity_gap(circuit: Circuit, place: Place) -> Iterator[Gap]:
    if circuit.is_spare or not circuit.shape.strip():
        return
    at = place.model_copy(update={"box": "r1_r2"})
    given = [
        reading.is_given and reading.meaning is not Meaning.NOT_APPLICABLE for reading in (circuit.r1_r2, circuit.r2)
    ]
    if circuit.is_ring and not (given[0]):
        yield gap("ring-without-r1-r2", at)
    elif not any(given):
        yield gap("no-continuity-reading", at)


def _limitation_gaps(job: Job) -> Iterator[Gap]:
    if not job.profile.takes_limitations or has_limitation_text(job):
        return
    for board, circuit in job.circuits():
        for name in boxes_of(Circuit):
            held = getattr(circuit, name)
            if isinstance(held, Reading) and held.meaning is Meaning.LIMITATION:
                place = Place(section="boards", board=board.id, circuit=circuit.id, box=name)
                yield gap("limitation-without-reason", place)


def _decision_gaps(job: Job) -> Iterator[Gap]:
    """FI alone where its rule is contested: the one outcome the inspector decides, and nothing to decide elsewhere."""
    place = Place(section="report", box="fi_alone")
    if is_undecided(job):
        readings = " Or ".join(each.told for each in outcome_rule(job.edition).readings)
        yield gap("fi-alone-undecided", place, readings=readings)
    elif job.profile.states_a_condition and job.report.fi_alone.strip() and not asks_inspector(job):
        yield gap("nothing-to-decide", place)


def has_limitation_text(job: Job) -> bool:
    """The report's own limitations say something, which can stand for the reason of a LIM."""
    texts = (job.report.agreed_limitations, job.report.operational_limitations)
    return not all(says_nothing(text) for text in texts)


def _inspection_gaps(job: Job) -> Iterator[Gap]:
    outcomes = {outcome.item: outcome for outcome in job.inspection}
    for item in job.items:
        outcome = outcomes.get(item.number)
        place = Place(section="inspection", item=item.number)
        if outcome is None:
            yield gap("no-outcome", place)
        elif lacks_names(item, outcome):
            yield gap("none-named", place)
        elif outcome.mark not in marks_for(job.form_set):
            yield gap("mark-of-reports", place, mark=outcome.mark)
        elif _lacks_reason(job, outcome):
            yield gap("mark-without-reason", place, mark=outcome.mark)


def _lacks_reason(job: Job, outcome: ItemOutcome) -> bool:
    """A limitation of the report stands for the reason of a LIM; N/V needs one of its own."""
    if outcome.note.strip():
        return False
    if outcome.mark is InspectionOutcome.LIMITATION:
        return not has_limitation_text(job)
    return outcome.mark is InspectionOutcome.NOT_VERIFIED


def _observation_gaps(job: Job, findings: tuple[Finding, ...]) -> Iterator[Gap]:
    if not job.profile.takes_observations:
        yield from _observed_where_none_is(job)
        return
    for outcome in job.inspection:
        code = outcome.mark.code
        if code and not any(outcome.item in each.items and each.code is code for each in job.observations):
            yield gap("code-without-observation", Place(section="inspection", item=outcome.item), code=code)
    marks = {outcome.item: outcome.mark for outcome in job.inspection}
    known = {item.number for item in job.items}
    for each in job.observations:
        for item in each.items:
            code = gravest(other.code for other in job.observations if item in other.items)
            if item not in known:
                yield gap("item-not-listed", Place(observation=each.id), item=item)
            elif item in marks and marks[item].code is not code:
                place, marked = Place(observation=each.id), str(marks[item])
                yield gap("item-marked-otherwise", place, item=item, code=str(code), marked=marked)
    for finding in findings:
        if finding.severity is Severity.FAILS and finding.check != DAYS_CHECK and not _is_observed(job, finding.place):
            yield gap(UNOBSERVED, finding.place, id=finding.id, finding=finding.says)


def _observed_where_none_is(job: Job) -> Iterator[Gap]:
    for each in job.observations:
        yield gap("observation-on-certificate", Place(observation=each.id), code=each.code)


def _is_observed(job: Job, place: Place) -> bool:
    """Some observation is about the circuit, names it, or, for what is on no board, is there at all."""
    board = job.board(place.board)
    circuit = board.circuit(place.circuit) if board else None
    for each in job.observations:
        if each.about and (each.about.board, each.about.circuit) == (place.board, place.circuit):
            return True
        if not place.board:
            return True
        if circuit and _names(f"{each.where} {each.finding}".casefold(), circuit):
            return True
    return False


def _names(text: str, circuit: Circuit) -> bool:
    """The text, folded, gives the description of a circuit, or its number as a word: circuit 1 is not circuit 12."""
    number, description = circuit.number.strip().casefold(), circuit.description.strip().casefold()
    if number and re.search(rf"\bcircuit {re.escape(number)}(?!\w|[./-]\w)", text):
        return True
    return bool(description) and description in text
