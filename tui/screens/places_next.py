"""Where in a job somebody goes next, from where they are."""

from domain.gate.reason import Reason, ReasonKind
from domain.job.job import Job
from domain.place import Place


def circuit_called(job: Job, typed: str, here: Place | None) -> Place | None:
    """The circuit that bears a number, on this board before any other; in the box the cursor is in on a circuit."""
    box = here.box if here and here.circuit else ""
    found = [
        Place(section="boards", board=board.id, circuit=circuit.id, box=box)
        for board, circuit in job.circuits()
        if circuit.bears(typed)
    ]
    return next((place for place in found if here and place.board == here.board), found[0] if found else None)


def reason_after(reasons: tuple[Reason, ...], here: Place | None) -> Reason:
    """The next thing that keeps the job back, round and round; the first where the cursor is on none of them."""
    places = [reason.place for reason in reasons]
    at = places.index(here) + 1 if here in places else 0
    # Two reasons may stand at one place; the next one is somewhere else.
    return next((reason for reason in (*reasons[at:], *reasons[:at]) if reason.place != here), reasons[0])


def left_of(reasons: tuple[Reason, ...]) -> str:
    """How many things hold a job back, its signatures apart, as the bar counts them."""
    if len(reasons) == 1:
        return "The last one"
    signatures = sum(each.kind is ReasonKind.SIGNATURE for each in reasons)
    parts = [(len(reasons) - signatures, "left"), (signatures, "to sign")]
    return ", ".join(f"{count} {word}" for count, word in parts if count)
