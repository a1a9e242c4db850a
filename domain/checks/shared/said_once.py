"""What is said of several circuits of a board in the same words is said once, and names them."""

import re
from collections.abc import Iterable, Iterator, Sequence

from domain.checks.shared.circuits_in_use import numbers_in_words
from domain.checks.shared.finding_factory import short_mark
from domain.checks.shared.phrases import phrase
from domain.job.box import boxes_of
from domain.job.circuit import Circuit
from domain.job.finding import Finding
from domain.job.job import Job
from domain.job.reading import Reading
from domain.place import Place
from domain.words import capitalised

_OFFERED = re.compile(r"did you mean (.+)\?", re.IGNORECASE)


def said_once(job: Job, findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """The same findings in the same order, alike ones of a board joined at the first of them.

    Readings are never joined: two circuits that read the same were each measured.
    """
    groups: dict[object, list[Finding]] = {}
    for number, finding in enumerate(_one_slip_once(findings)):
        groups.setdefault(_likeness(job, finding) or number, []).append(finding)
    return tuple(group[0] if len(group) == 1 else _joined(job, group) for group in groups.values())


def _one_slip_once(findings: Iterable[Finding]) -> Iterator[Finding]:
    """Two checks may see one slip of the point; the same figure is offered for the same box by the first of them."""
    offered: set[tuple[Place, str]] = set()
    for finding in findings:
        if slip := _OFFERED.search(finding.values.get("next", "")):
            if (finding.place, slip[1]) in offered:
                continue
            offered.add((finding.place, slip[1]))
        yield finding


def _likeness(job: Job, finding: Finding) -> object:
    place = finding.place
    if not place.circuit or place.box not in boxes_of(Circuit):
        return None
    circuit = _circuit(job, place)
    if circuit is None or (boxes_of(Circuit)[place.box].is_measured and _is_read(circuit, place.box)):
        return None
    return finding.check, finding.case, finding.severity, place.board, place.box, finding.says


def _is_read(circuit: Circuit, box: str) -> bool:
    reading: Reading = getattr(circuit, box)
    return reading.value is not None


def _joined(job: Job, group: Sequence[Finding]) -> Finding:
    first, *others = group
    circuits = [circuit for each in group if (circuit := _circuit(job, each.place))]
    says = phrase("on-several", circuits=numbers_in_words([each.number for each in circuits]), says=first.says)
    marks = (f"{each.place.circuit} {sorted(each.typed.items())}" for each in group)
    return first.model_copy(
        update={
            "also": tuple(each.place for each in others),
            "says": capitalised(says),
            "typed": {**first.typed, "circuits": short_mark(marks)},
        }
    )


def _circuit(job: Job, place: Place) -> Circuit | None:
    board = job.board(place.board)
    return board.circuit(place.circuit) if board else None
