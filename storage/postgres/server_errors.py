"""Trouble with a server, as plain sentences. What the server itself says may hold anything, and is not repeated."""

import psycopg

from domain.log.job_log import JobLogError, UnknownIfKeptError
from storage.errors import DamagedError

_GONE = (
    "The job log's server does not answer; this was not saved. It is asked again with what you do next, and nothing "
    "saved before is lost ({place})."
)
_UNKNOWN = (
    "The server of the job log was lost before it answered ({place}): this may have been saved or not. Look before you "
    "do it again."
)
_REFUSED = "The server of the job log does not let you in ({place}). Look at your name there, and at the password in ~/.pgpass."
_NO_RIGHT = "You have no right to that in the job log ({place}). Whoever set it up opens it to you with `ohmfolio tend --share`."
_BUSY = "Somebody else has been changing the same for too long ({place}). This was not saved; do it again."
_CROSSED = "Somebody else changed the same at the same moment. This was not saved; do it again."
_SLOW = "The server of the job log took too long ({place}). Narrow down what you look for."
_FULL = "The server of the job log has no room left ({place}). This was not saved; nothing saved before is lost."
_CROWDED = "The server of the job log has too many visitors ({place}). Try again in a moment."
_READ_ONLY = "The server of the job log takes no changes at the moment ({place}). This was not saved."
_GUARDED = "What was issued, and the trail of what was done, stay as they are. Nothing has been changed."
_UNREADABLE = "That holds what is no text. This was not saved; type it anew."
_NO_DATABASE = "The server has nothing by the name in {place}. Whoever looks after it makes it: createdb NAME."
_NOT_PROVED = (
    "The server of the job log does not prove who it is ({place}): its certificate comes from nobody that sslrootcert names, or "
    "is not made out to that host. Nothing was sent to it; ask whoever looks after it."
)
_NO_CERTIFICATE = (
    "A certificate or key that the line to the job log needs cannot be read ({place}). Look at sslrootcert, sslcert and sslkey in "
    "the address; without them they are those of ~/.postgresql."
)
_NOT_ENCRYPTED = (
    "The server of the job log does not encrypt the line as its address asks ({place}). Nothing was sent to it."
)
_OTHER = "The job log at {place} could not do it. This was not saved; nothing saved before is lost."

_BY_STATE = {
    "28000": _REFUSED,
    "28P01": _REFUSED,
    "3D000": _NO_DATABASE,
    "25006": _READ_ONLY,
    "40001": _CROSSED,
    "40P01": _CROSSED,
    "42501": _NO_RIGHT,
    "53100": _FULL,
    "53200": _FULL,
    "53300": _CROWDED,
    "55P03": _BUSY,
    "57014": _SLOW,
    "P0001": _GUARDED,
}
_WORDS_OF_LIBPQ = (
    ("password authentication failed", _REFUSED),
    ("no password supplied", _REFUSED),
    ("authentication failed", _REFUSED),
    ("no pg_hba.conf entry", _REFUSED),
    ("too many clients", _CROWDED),
    ("remaining connection slots", _CROWDED),
    ("certificate verify failed", _NOT_PROVED),
    ("does not match host name", _NOT_PROVED),
    ("root certificate file", _NO_CERTIFICATE),
    ("could not read certificate file", _NO_CERTIFICATE),
    ("private key file", _NO_CERTIFICATE),
    ("does not support SSL", _NOT_ENCRYPTED),
)
"""A connection that is refused has no code yet."""


class NotKeptError(JobLogError):
    """Nothing was kept, for a reason that has gone by: it may be asked again at once."""


def as_server_error(trouble: Exception, place: object, *, lost: bool = False) -> JobLogError:
    """What the driver raised, as the person should read it; `lost` where the line to the server broke."""
    if isinstance(trouble, UnicodeError | psycopg.DataError):
        return JobLogError(_UNREADABLE)
    state = getattr(trouble, "sqlstate", None)
    sentence = _GONE if lost else _BY_STATE.get(state or "", _OTHER)
    if isinstance(trouble, psycopg.errors.UndefinedTable | psycopg.errors.UndefinedColumn):
        return DamagedError(
            f"The job log at {place} is not laid out as this program made it. Nothing has been changed."
        )
    kind = NotKeptError if lost or sentence in {_CROSSED, _BUSY} else JobLogError
    return kind(sentence.format(place=place))


def cannot_connect(trouble: Exception, place: object) -> JobLogError:
    """Why there is no connection."""
    said = str(trouble)
    state = getattr(trouble, "sqlstate", None) or ""
    sentence = next((each for words, each in _WORDS_OF_LIBPQ if words in said), _BY_STATE.get(state, _GONE))
    if "does not exist" in said and "database" in said:
        sentence = _NO_DATABASE
    return JobLogError(sentence.format(place=place))


def unknown_if_kept(place: object) -> UnknownIfKeptError:
    """The answer to a commit was lost."""
    return UnknownIfKeptError(_UNKNOWN.format(place=place))
