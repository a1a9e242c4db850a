"""What a form set asks for and a job does not hold yet, or holds and cannot stand: not wrong, but a gap."""

from collections.abc import Iterator, Mapping

from pydantic import BaseModel

from domain.forms.box_group import BoxGroup
from domain.forms.form_set import FormSet
from domain.gate.box_conflicts import box_conflicts
from domain.gate.letter_gaps import letter_gaps
from domain.gate.letters import letter_problem
from domain.gate.observation_gaps import observation_gaps
from domain.gate.report_outcome import asks_inspector, is_undecided
from domain.gate.sentence import gap
from domain.inspection.item_outcome import InspectionOutcome, ItemOutcome, lacks_names, marks_for
from domain.inspection.outcome_rule import outcome_rule
from domain.job.board import Board
from domain.job.box import boxes_of, typed_in
from domain.job.circuit import Circuit
from domain.job.finding import Finding, Gap
from domain.job.job import Job, sections_for
from domain.job.picture_place import place_typed
from domain.job.place_in_words import box_at, text_at
from domain.job.reading import Meaning, Reading
from domain.place import Place
from domain.value import is_blank, is_hollow, is_repeated

_NAMED_MOST = 4


def gaps_of(job: Job, findings: tuple[Finding, ...] = ()) -> tuple[Gap, ...]:
    """Every gap, in the order a person meets the boxes. Failing `findings` of a report need observations."""
    return (
        *_choice_gaps(job),
        *_reason_gaps(job),
        *_section_gaps(job),
        *_board_gaps(job),
        *_limitation_gaps(job),
        *_inspection_gaps(job),
        *observation_gaps(job, findings),
        *_decision_gaps(job),
        *_picture_gaps(job),
        *letter_gaps(job),
        *_unconfirmed_gaps(job),
    )


def _box_gaps(owner: BaseModel, place: Place, form_set: FormSet) -> Iterator[Gap]:
    misplaced = box_conflicts(owner)
    for name, box in boxes_of(type(owner)).items():
        if not box.is_asked(form_set):
            continue
        typed = typed_in(owner, name)
        if is_blank(typed) or (box.names and is_hollow(typed)):
            if box.is_required(form_set, owner):
                yield gap("not-taken" if box.is_measured else "not-filled-in", _box_of(place, name))
        elif problem := box.problem(typed, form_set) or letter_problem(typed):
            yield gap("cannot-stand", _box_of(place, name), problem=problem)
        elif name in misplaced:
            yield gap("conflict", _box_of(place, name), conflict=misplaced[name])


def _box_of(place: Place, name: str) -> Place:
    return place.model_copy(update={"box": name})


def _choice_gaps(job: Job) -> Iterator[Gap]:
    if job.chosen.is_override and is_hollow(job.chosen.because):
        yield gap("override-without-reason", Place(section="chosen"))


def _reason_gaps(job: Job) -> Iterator[Gap]:
    if not job.amended_to:
        yield gap("edition-not-named", Place(section="chosen"))
    if job.replaces.strip() and is_hollow(job.replaces_because):
        yield gap("replaces-without-reason", Place(section="signatures"), replaces=job.replaces)


def _section_gaps(job: Job) -> Iterator[Gap]:
    kept = _kept_of(job)
    for section in sections_for(job.form_set):
        yield from kept[id(getattr(job, section)), section]


def _board_gaps(job: Job) -> Iterator[Gap]:
    if not job.profile.takes(BoxGroup.CIRCUIT):
        return
    if not job.boards:
        yield gap("no-board", Place(section="boards"))
    if job.profile.covers_one_circuit and len(job.circuits()) > 1:
        yield gap("too-many-circuits", Place(section="boards"))
    kept = _kept_of(job)
    for board in job.boards:
        yield from kept[id(board), board.id]
        if not board.circuits:
            yield gap("no-circuit", Place(section="boards", board=board.id))
        for circuit in board.circuits:
            yield from kept[id(circuit), board.id]


_GapsOfParts = Mapping[tuple[int, str], tuple[Gap, ...]]
"""Of each section, board and circuit, whose boxes hang on nothing else: by its identity, and the section or board it stands in.

The job they were found in is kept beside them and holds its parts, so that nothing else comes to have their identity.
"""
_last: tuple[Job, _GapsOfParts] | None = None
"""Those of the job looked at last: an edit makes few of its parts anew."""


def _kept_of(job: Job) -> _GapsOfParts:
    global _last
    held = _last
    if held and held[0] is job:
        return held[1]
    now = dict[tuple[int, str], tuple[Gap, ...]]()
    before = held[1] if held and held[0].form_set is job.form_set else now
    for owner, where in _owners(job):
        kept = before.get((id(owner), where))
        now[id(owner), where] = tuple(_gaps_of(owner, where, job.form_set)) if kept is None else kept
    _last = (job, now)
    return now


def _owners(job: Job) -> Iterator[tuple[BaseModel, str]]:
    yield from ((getattr(job, section), section) for section in sections_for(job.form_set))
    for board in job.boards:
        yield board, board.id
        yield from ((circuit, board.id) for circuit in board.circuits)


def _gaps_of(owner: BaseModel, where: str, form_set: FormSet) -> Iterator[Gap]:
    if isinstance(owner, Circuit):
        place = Place(section="boards", board=where, circuit=owner.id)
        yield from _box_gaps(owner, place, form_set)
        yield from _continuity_gap(owner, place)
    else:
        place = Place(section="boards", board=where) if isinstance(owner, Board) else Place(section=where)
        yield from _box_gaps(owner, place, form_set)


def _unconfirmed_gaps(job: Job) -> Iterator[Gap]:
    """What was put forward and nobody said yes to, once for each section, board and circuit; of boxes the papers show."""
    waiting: dict[tuple[str, str, str], list[tuple[Place, str]]] = {}
    for place in job.unconfirmed:
        box = box_at(job, place)
        if box is not None and box.is_asked(job.form_set) and not is_blank(text_at(job, place)):
            waiting.setdefault(place.whose, []).append((place, box.label))
    for held in waiting.values():
        labels = [label for _, label in held]
        more = f" and {len(labels) - _NAMED_MOST} more" if len(labels) > _NAMED_MOST else ""
        yield gap("never-confirmed", held[0][0], boxes=f"{', '.join(labels[:_NAMED_MOST])}{more}")


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
    limited = _limited_boxes(job)
    # While a box is empty it is a gap of its own, and nothing is denied yet.
    denied = not any(is_blank(text) for text in _limitation_texts(job))
    if denied and (limited or any(outcome.mark in _LEFT_UNSEEN for outcome in job.inspection)):
        yield gap("limitations-denied", Place(section="report", box="agreed_limitations"))
    for place, meaning in limited:
        if meaning is Meaning.LIMITATION:
            yield gap("limitation-without-reason", place)


_LEFT_UNSEEN = {InspectionOutcome.LIMITATION, InspectionOutcome.NOT_VERIFIED}
_NOT_TESTED = {Meaning.LIMITATION, Meaning.NOT_VERIFIED}


def _limited_boxes(job: Job) -> list[tuple[Place, Meaning]]:
    """The boxes of circuits where LIM or N/V stands."""
    return [
        (Place(section="boards", board=board.id, circuit=circuit.id, box=name), held.meaning)
        for board, circuit in job.circuits()
        for name in boxes_of(Circuit)
        if isinstance(held := getattr(circuit, name), Reading) and held.meaning in _NOT_TESTED
    ]


def _decision_gaps(job: Job) -> Iterator[Gap]:
    """FI alone where its rule is contested: the one outcome the inspector decides, and nothing to decide elsewhere."""
    place = Place(section="report", box="fi_alone")
    if is_undecided(job):
        readings = " Or ".join(each.told for each in outcome_rule(job.edition).readings)
        yield gap("fi-alone-undecided", place, readings=readings)
    elif job.profile.states_a_condition and job.report.fi_alone.strip() and not asks_inspector(job):
        yield gap("nothing-to-decide", place)


def _picture_gaps(job: Job) -> Iterator[Gap]:
    """What a picture showed was taken out; the picture was not."""
    for number, picture in enumerate(job.pictures, start=1):
        if not place_typed(job, picture.about):
            yield gap("picture-of-nothing", picture.about, number=str(number), caption=picture.caption)


def has_limitation_text(job: Job) -> bool:
    """The report's own limitations say something, which can stand for the reason of a LIM."""
    return not all(is_hollow(text) for text in _limitation_texts(job))


def _limitation_texts(job: Job) -> tuple[str, str]:
    return job.report.agreed_limitations, job.report.operational_limitations


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
    if not is_hollow(outcome.note) and not is_repeated(outcome.note, _notes_on(job, outcome.mark)):
        return False
    if outcome.mark is InspectionOutcome.LIMITATION:
        return not has_limitation_text(job)
    return outcome.mark is InspectionOutcome.NOT_VERIFIED


def _notes_on(job: Job, mark: InspectionOutcome) -> Iterator[str]:
    return (each.note for each in job.inspection if each.mark is mark)
