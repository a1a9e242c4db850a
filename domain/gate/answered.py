"""Which observation of a report answers which failure: by the places named in it, never by a word of its texts."""

from collections.abc import Iterable, Iterator

from domain.inspection.codes.guidance import Guidance, guidance
from domain.inspection.observation import Code, Observation, is_gentler
from domain.job.finding import DAYS_CHECK, Finding, Severity
from domain.job.job import Job
from domain.place import Place


def failures_in(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """The findings that an observation of a report has to answer; a day that cannot be is mended, not observed."""
    return tuple(finding for finding in findings if finding.severity is Severity.FAILS and finding.check != DAYS_CHECK)


def answering(job: Job, place: Place) -> tuple[tuple[int, Observation], ...]:
    """The observations that answer a failure at a place, each with the number it is printed under."""
    return tuple((number, each) for number, each in enumerate(job.observations, start=1) if each.does_answer(place))


def answering_finding(job: Job, finding: Finding) -> tuple[tuple[int, Observation], ...]:
    """The observations that answer a failure at any of the boxes it is about; what is said once is answered once."""
    return tuple((number, each) for number, each in enumerate(job.observations, start=1) if _answers(each, finding))


def _answers(observation: Observation, finding: Finding) -> bool:
    return any(observation.does_answer(place) for place in finding.places)


def open_failures(job: Job, findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """The failures of a report that no observation answers."""
    return tuple(each for each in failures_in(findings) if not answering_finding(job, each))


def lesser_coded(observation: Observation, findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """The failures an observation answers with a code that needs its reason: FI, C3, or less than guidance names."""
    answered = (each for each in failures_in(findings) if _answers(observation, each))
    return tuple(each for each in answered if is_gentler(observation.code, _gentlest_unasked(each)))


def guidance_on(finding: Finding) -> Guidance | None:
    """What published guidance says of the like of a failure, by the row of the check that found it."""
    return next((each for each in guidance() if each.is_on(finding.id, finding.place.section)), None)


def _gentlest_unasked(finding: Finding) -> Code:
    """The gentlest code that nobody has to give a reason for: C2, or C1 where guidance names no other."""
    named = guidance_on(finding)
    return Code.C1 if named and set(named.commonly) == {Code.C1} else Code.C2


def offered(job: Job, observation: Observation, findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Every failure that an observation answers or nobody answers yet, the likely ones first.

    Likely: those it answers, then those of the circuit, the board and the box it speaks of. Words of its texts only sort.
    """
    near = (*observation.answers, *((observation.about,) if observation.about else ()))
    text = f"{observation.where} {observation.finding}".casefold()

    def distance(finding: Finding) -> tuple[int, ...]:
        place = finding.place
        return (
            not _answers(observation, finding),
            place != observation.about,
            not any(place.circuit and place.circuit == each.circuit for each in near),
            not any(place.board and place.board == each.board for each in near),
            not any(place.box and place.box == each.box for each in near),
            not any(name and name in text for name in _names_of(job, place)),
        )

    free = (each for each in failures_in(findings) if _answers(observation, each) or not answering_finding(job, each))
    first: dict[Place, Finding] = {}
    for each in sorted(free, key=distance):
        first.setdefault(each.place, each)
    return tuple(first.values())


def _names_of(job: Job, place: Place) -> Iterator[str]:
    board = job.board(place.board)
    circuit = board.circuit(place.circuit) if board else None
    if circuit:
        yield circuit.description.strip().casefold()
