"""What can be done between an office and its laptops, by what this log is: what each asks, and the command it comes to."""

from pathlib import Path

from domain.laptops.holding import Station
from domain.log.search_words import number_written
from tui.routes import ToSettle
from tui.screens.keeping_tasks import NUMBER, KeepingTask, Offer, Typed, leading_to, nothing_asked, whole_path
from tui.widgets.entry_lines import AskedLine, EntryOption

_LOST, _SHUT = "lost", "shut out"
_SETTLE = leading_to("s", "Settle", "What was begun twice, set aside or lost: two choices each", ToSettle())


def offered_to(own: Station | None) -> tuple[KeepingTask, ...]:
    """What a log that stands alone, an office or a laptop can do."""
    if own is None:
        return _NEW_LAPTOP, _JOIN
    if own.is_office:
        return _EXCHANGE, _LEND, _VISIT, _SETTLE, _LAPTOPS, _NEW_LAPTOP, _GONE
    return _EXCHANGE, _ASK_FOR, _BRING_BACK, _VISIT, _LAPTOPS


def _numbers(typed: str) -> tuple[str, ...]:
    """As typed, several with blanks or commas between; what is no number is left for the command to say so."""
    words = typed.replace(",", " ").split()
    return tuple(number if NUMBER.fullmatch(number := number_written(word)) else word for word in words)


def _where(typed: str) -> str:
    """A folder whole, since the command is done in another one; a host as it stands."""
    return whole_path(typed) if "/" in typed and "://" not in typed else typed


def _exchange_lines(_: Offer) -> tuple[AskedLine, ...]:
    return (AskedLine("where", "Where", must=True), AskedLine("trust", "New key, if told"))


def _exchange_typed(typed: Typed) -> tuple[str, ...]:
    trust = ("--trust", typed["trust"]) if typed["trust"] else ()
    return ("exchange", *trust, _where(typed["where"]))


def _lend_lines(offer: Offer) -> tuple[AskedLine, ...]:
    return (
        AskedLine("jobs", "Numbers", offer.number, must=True),
        AskedLine("laptop", "To laptop", offer.laptop, must=True),
    )


def _lend_typed(typed: Typed) -> tuple[str, ...]:
    return ("take-out", "--to", typed["laptop"], *_numbers(typed["jobs"]))


def _ask_lines(offer: Offer) -> tuple[AskedLine, ...]:
    return (AskedLine("jobs", "Numbers", offer.number, must=True),)


def _ask_typed(typed: Typed) -> tuple[str, ...]:
    return ("take-out", *_numbers(typed["jobs"]))


def _bring_back_lines(offer: Offer) -> tuple[AskedLine, ...]:
    return (AskedLine("jobs", "Numbers", offer.number),)


def _bring_back_typed(typed: Typed) -> tuple[str, ...]:
    return ("bring-back", *_numbers(typed["jobs"]))


def _visit_lines(offer: Offer) -> tuple[AskedLine, ...]:
    return (
        AskedLine("into", "Job that goes on", offer.number, must=True),
        AskedLine("other", "Job that ends in it", must=True),
    )


def _visit_typed(typed: Typed) -> tuple[str, ...]:
    return ("take-boards", *_numbers(typed["into"]), *_numbers(typed["other"]))


def _listed(_: Typed) -> tuple[str, ...]:
    return ("laptop",)


def _first_file(_: Offer) -> tuple[AskedLine, ...]:
    return (
        AskedLine("letters", "Its letters", must=True),
        AskedLine("person", "Who has it"),
        AskedLine("file", "New file", str(Path.home() / "first-file"), must=True),
    )


def _new_typed(typed: Typed) -> tuple[str, ...]:
    person = ("--for", typed["person"]) if typed["person"] else ()
    return ("laptop", *person, "--to", whole_path(typed["file"]), typed["letters"])


def _gone_lines(offer: Offer) -> tuple[AskedLine, ...]:
    ways = (
        EntryOption("L", _LOST, "lost: what it has out is put on the list to settle"),
        EntryOption("S", _SHUT, "shut out: nothing from it counts before you say so"),
    )
    return (
        AskedLine("laptop", "Its letters", offer.laptop, must=True),
        AskedLine("what", "It is", _LOST, options=ways),
    )


def _gone_typed(typed: Typed) -> tuple[str, ...]:
    return ("laptop", "--shut" if typed["what"] == _SHUT else "--lost", typed["laptop"])


def _join_lines(_: Offer) -> tuple[AskedLine, ...]:
    return (AskedLine("file", "The file", must=True),)


def _join_typed(typed: Typed) -> tuple[str, ...]:
    return ("join", whole_path(typed["file"]))


_EXCHANGE = KeepingTask(
    "e",
    "Exchange",
    "Meet the others, by a stick, a shared folder or ssh",
    _exchange_lines,
    "A folder that both sides see, such as /media/stick; or, on a laptop, the office's host as ssh knows it. Where the other"
    " side has a new key, its fingerprint as they read it to you.",
    _exchange_typed,
)
_LEND = KeepingTask(
    "t",
    "Take out",
    "Lend jobs to a laptop; here they are only read then",
    _lend_lines,
    "One number or several, and the letters of the laptop. It has them with the next exchange.",
    _lend_typed,
)
_ASK_FOR = KeepingTask(
    "t",
    "Take out",
    "Ask the office for jobs, to work on them here",
    _ask_lines,
    "One number or several. They come with what the office sends next, unless somebody else has them out.",
    _ask_typed,
)
_BRING_BACK = KeepingTask(
    "b",
    "Bring back",
    "Give jobs back to the office; here they are only read",
    _bring_back_lines,
    "One number or several; left empty, all that are out with this laptop. They go with the next exchange.",
    _bring_back_typed,
)
_VISIT = KeepingTask(
    "v",
    "One visit, two jobs",
    "Take the boards that somebody else tested into one job",
    _visit_lines,
    "The boards of the other job, with readings and all that was found there, go into this one; the other is laid aside.",
    _visit_typed,
)
_LAPTOPS = KeepingTask("w", "Who has what", "The laptops, and when each was heard", nothing_asked, "", _listed)
_NEW_LAPTOP = KeepingTask(
    "n",
    "New laptop",
    "Make the file that a laptop of this office begins with",
    _first_file,
    "Its numbers begin with its letters, such as initials, from now on. The file holds the whole log, and serves one laptop:"
    " carry it there, join with it, then delete it. The first laptop makes this log that of an office.",
    _new_typed,
)
_JOIN = KeepingTask(
    "j",
    "Join an office",
    "Make this the log of a laptop, with the file its office made",
    _join_lines,
    "There may be no jobs here yet. Delete the file afterwards.",
    _join_typed,
    closes_log=True,
    asks_first="Make this the log of a laptop, with {file}?",
)
_GONE = KeepingTask(
    "l",
    "Laptop lost",
    "Say that a laptop is lost, or shut it out",
    _gone_lines,
    "What it has out goes on as a copy, once you settle that. A lost one may come back; one that is shut out is not believed.",
    _gone_typed,
)
