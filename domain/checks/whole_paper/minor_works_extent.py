"""Minor works whose description tells of more than a minor works certificate covers."""

import re
from collections.abc import Iterator

from domain.checks.shared.board_words import tells_of_a_new_board
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.sources import sources_told
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.place import Place
from domain.regulation import regulation

_found = FindingFactory("minor-works-extent")
_NEW_CIRCUIT = re.compile(
    r"\b(?:new|additional|extra|dedicated|separate)\b(?: [\w/-]+){0,3} (?:final |distribution )?circuits?\b(?! breakers?)"
    r"|\bcircuits? (?:added|installed)\b",
    re.IGNORECASE,
)
_PUT_IN = re.compile(r"\b(?:new|install\w*|fit(?:ted|ting)?|add(?:ed|ing)?|connect(?:ed|ing|ion)?)\b", re.IGNORECASE)
_OF_A_SOURCE = re.compile(
    r"\b(?:isolator|label|meter|switch|sign|socket|spur|repair\w*|replac\w*|remov\w*|disconnect\w*|garden|lights?)\b",
    re.IGNORECASE,
)
"""What is beside a source, or was there before."""
_DENIED = re.compile(r"\b(?:no|not a|without a?)\s+(?:new|additional|extra)\b", re.IGNORECASE)


def minor_works_extent(job: Job) -> Iterator[Finding]:
    """A new circuit, another board, or a source of supply wants an Electrical Installation Certificate."""
    if not job.profile.covers_one_circuit:
        return
    told, place = job.work.description.strip(), Place(section="work", box="description")
    case = "new-board" if tells_of_a_new_board(told) else "new-circuit" if _NEW_CIRCUIT.search(told) else ""
    if not case and sources_told(told) and _PUT_IN.search(told) and not _OF_A_SOURCE.search(told):
        case = "new-source"
    if case and not _DENIED.search(told):
        yield _found(job, place, Severity.ASK, case, source=regulation("extent of minor works", job.edition))
