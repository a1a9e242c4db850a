"""The seam where rows become lines of the log, of a trail and of what people jotted down, and such lines become rows."""

import json
from collections.abc import Generator, Mapping
from contextlib import contextmanager
from datetime import UTC, date, datetime, timedelta
from typing import TYPE_CHECKING, Any

from domain.forms.form_set import FormSet
from domain.gate.outcome import Outcome
from domain.log.job_log import JobLine, State, TrailLine
from domain.log_note import LogNote
from domain.place import Place
from storage.errors import damaged

if TYPE_CHECKING:
    from storage.trail_block import EditRow

_START = datetime(1970, 1, 1, tzinfo=UTC)
LINE_COLUMNS = (
    "number, client, premises, form_set, state, outcome, open_snags, updated, due, put_right, day, laid_aside"
)


def microseconds(at: datetime) -> int:
    """A moment as rows keep it."""
    return (at.astimezone(UTC) - _START) // timedelta(microseconds=1)


def moment(kept: int) -> datetime:
    """The moment a row keeps; DamagedError where it is none."""
    with as_written("A moment"):
        return _START + timedelta(microseconds=kept)


@contextmanager
def as_written(what: str) -> Generator[None]:
    """Turn columns into values; DamagedError where they hold what this program never writes there."""
    try:
        yield
    except (ValueError, OverflowError, TypeError, KeyError, AttributeError) as strange:
        raise damaged(what) from strange


def line_values(line: JobLine) -> dict[str, Any]:
    """The columns of a log line."""
    return {
        "number": line.number,
        "client": line.client,
        "premises": line.premises,
        "form_set": line.form_set.value,
        "state": line.state.value,
        "outcome": line.outcome.value if line.outcome else None,
        "open_snags": line.open_snags,
        "updated": microseconds(line.updated),
        "due": line.due.toordinal() if line.due else None,
        "put_right": int(line.put_right),
        "day": line.day.toordinal() if line.day else None,
        "laid_aside": int(line.laid_aside),
    }


def line_from(row: tuple[Any, ...]) -> JobLine:
    """A log line from its columns; DamagedError where they hold none."""
    number, client, premises, form_set, state, outcome, open_snags, updated, due, put_right, day, laid_aside = row
    with as_written(f"The line of {number}"):
        return JobLine(
            number=number,
            client=client,
            premises=premises,
            form_set=FormSet(form_set),
            state=State(state),
            outcome=Outcome(outcome) if outcome else None,
            open_snags=open_snags,
            updated=moment(updated),
            due=date.fromordinal(due) if due else None,
            put_right=bool(put_right),
            day=date.fromordinal(day) if day else None,
            laid_aside=bool(laid_aside),
        )


def note_from(row: tuple[Any, ...]) -> LogNote:
    """Something kept of a person, from a row of its moment, the person and the text."""
    at, who, text = row
    with as_written("A note"):
        return LogNote(at=moment(at), who=who, text=text)


def trail_line_from(row: "EditRow") -> TrailLine:
    """A line of the trail from its edit."""
    with as_written("The trail of a job"):
        done: dict[str, Any] = json.loads(row.command) if row.command else {}
        return TrailLine(version=row.version, at=moment(row.at), who=row.who, what=row.what, place=_place_of(done))


def _place_of(done: Mapping[str, Any]) -> Place | None:
    """Where a command as written acts: of several boxes the first stands for all, of a circuit filled the circuit."""
    if done.get("do") == "fill-circuit":
        # Circuits, and all they are made of, are not loaded for the list of jobs.
        from domain.editing.usual_commands import FillCircuit

        return FillCircuit.model_validate(done).place
    place = done.get("place") or next((each["place"] for each in done.get("entries", ())), None)
    return Place.model_validate(place) if place else None
