"""Other sources of supply as the first page names them, against the circuits that bring them in."""

from collections.abc import Iterator

from domain.checks.shared.circuits_in_use import ways_in_use
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.phrases import listed, phrase
from domain.checks.shared.sources import sources_brought_in, sources_named
from domain.job.box import answers_in
from domain.job.circuit_use import GENERATOR
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.place import Place
from domain.regulation import regulation
from domain.value import says_none

_found = FindingFactory("other-sources")
_PLACE = Place(section="supply", box="other_sources")
_WHOLE = frozenset({"new", "a replaced consumer unit"})


def other_sources(job: Job) -> Iterator[Finding]:
    """Each source that a circuit brings in is named on the first page, and each named there has its circuit."""
    text = job.supply.other_sources.strip()
    if not text:
        return
    source = regulation("other sources of supply", job.edition)
    named = sources_named(text)
    feeding_in = [(way, fed) for way in ways_in_use(job) if (fed := sources_brought_in(way.circuit))]
    unnamed = {way.circuit.id: way for way, fed in feeding_in if fed - named}
    brought = frozenset[str]().union(*(fed for _, fed in feeding_in))
    if unnamed:
        circuits = listed([f"{way.board.name} {way.circuit.number.strip()}" for way in unnamed.values()])
        what = listed(sorted(brought - named))
        typed = {"circuits": " ".join(unnamed)}
        said = {"what": what, "circuits": circuits}
        if says_none(text):
            read = phrase("no-other-source")
            # Words of a description may mean something else; what a circuit is said to feed is meant.
            is_said = any(way.circuit.feeds.strip() for way in unnamed.values())
            severity = Severity.FAILS if is_said else Severity.ASK
            yield _found(job, _PLACE, severity, "denied", source=source, typed=typed, measured=read, said=said)
        else:
            yield _found(job, _PLACE, Severity.ASK, "not-named", source=source, typed=typed, said=said)
    # A generator may come in before every circuit, by a switch of its own.
    without = named - brought - {GENERATOR}
    if without and not says_none(text) and _covers_every_circuit(job):
        yield _found(job, _PLACE, Severity.ASK, "without-a-circuit", source=source, what=listed(sorted(without)))


def _covers_every_circuit(job: Job) -> bool:
    """A report and a new board list every circuit; an addition lists its own."""
    return job.profile.states_a_condition or bool(_WHOLE.intersection(answers_in(job.work.kind)))
