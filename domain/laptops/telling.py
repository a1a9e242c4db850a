"""Matters to settle between an office and its laptops, in words: what happened, and what each choice comes to."""

from collections.abc import Iterable, Sequence

from domain.laptops.holding import Station, StationState
from domain.laptops.matter import Matter, MatterKind
from domain.words import counted

_SAYS = {
    MatterKind.ASIDE: "{job}: {count} of {who} set aside, for {why}",
    MatterKind.STRANDED: "{job} is out with {who}{state}",
    MatterKind.COPIED: "{job} came back from {who}, and goes on as {other}",
    MatterKind.TWO_PAPERS: "{job} and {other}, one job, were both issued",
    MatterKind.TWINS: "{job} and {other} look like one visit: the same address, day and papers",
    MatterKind.STRANGE: "{who} sent something else under a name that is taken; it is kept, and was not done",
    MatterKind.LOST_WORK: "{count} of {who} are gone with a log that was put back from a copy",
    MatterKind.SIGNER: "{job}, issued with {who}, is signed by somebody whom the register of people does not let sign now",
}
_WHICH = {
    StationState.LOST: ", and that laptop is lost",
    StationState.SHUT: ", and that laptop was shut out",
    StationState.REBORN: ", and the log of that laptop was put back from a copy",
}
_SHUT_OUT, _NOT_THEIRS = "that laptop was shut out", "the job was not theirs to change when it came"
_LAID_ASIDE = "It keeps its number and all that was typed, and can be taken up again. A paper is never laid aside."
_MANY = 5
_OFF_THE_LIST = "Nothing is done to any job; it comes off this list."
COMES_TO = {
    MatterKind.ASIDE: (
        "The edits are done to the job, or the copy it goes on as, as far as they fit it; signatures do not go into a copy.",
        "Nothing is done to the job. The edits stay in the log, and come off this list for good.",
    ),
    MatterKind.STRANDED: (
        "A new draft begins here, a copy of the job as the office knows it. Should the laptop come back, both are told of.",
        "Nothing is begun. Say once more that the laptop is lost, and it is asked again.",
    ),
    MatterKind.COPIED: (_LAID_ASIDE, _OFF_THE_LIST),
    MatterKind.TWO_PAPERS: (
        "Nothing is done here: begin the replacement on the page of the paper that goes. It comes off this list.",
        _OFF_THE_LIST,
    ),
    MatterKind.TWINS: (
        _LAID_ASIDE,
        f"{_OFF_THE_LIST} Where each tested boards of one visit, take those of the one job into the other instead.",
    ),
    MatterKind.STRANGE: (_OFF_THE_LIST, _OFF_THE_LIST),
    MatterKind.LOST_WORK: (_OFF_THE_LIST, _OFF_THE_LIST),
    MatterKind.SIGNER: (
        _OFF_THE_LIST,
        "Nothing is done here: begin the replacement on the page of the paper. It comes off this list.",
    ),
}
"""What each of the two choices of `settling.CHOICES` comes to."""


def matter_in_words(matter: Matter, stations: Iterable[Station]) -> str:
    """What happened, in a sentence without its full stop."""
    station = next((each for each in stations if each.device == matter.device), None)
    who = "a laptop" if station is None else "the office" if station.is_office else station.person or station.name
    return _SAYS[matter.kind].format(
        job=matter.job or "A note",
        who=who,
        state=_WHICH.get(station.state, "") if station else "",
        other=other_job(matter),
        why=_SHUT_OUT if station and station.state is StationState.SHUT else _NOT_THEIRS,
        count=counted(matter.last - matter.first + 1, "edit"),
    )


def in_few_words(done: Sequence[str]) -> str:
    """What was done, as far as it fits into a line or two."""
    more = f"; and {len(done) - _MANY} more" if len(done) > _MANY else ""
    return "; ".join(done[-_MANY:]) + more


def other_job(matter: Matter) -> str:
    """The other job of a matter; "" where it has none."""
    return "" if matter.kind is MatterKind.STRANGE else matter.other
