"""One thing done at one device, as all others hear of it: numbered, and chained to what that device did before."""

import hashlib
import json
from collections.abc import Mapping
from enum import StrEnum
from typing import Any, NamedTuple


class Act(StrEnum):
    """What was done."""

    BEGIN = "begin"
    EDIT = "edit"
    ISSUE = "issue"
    NOTE = "note"
    """Something kept beside all jobs, which every device may add to."""
    ASK = "ask"
    """A laptop asks for a job."""
    GIVE = "give"
    """Whoever holds a job gives it back; nobody holds it until the office has heard."""
    REBORN = "reborn"
    """A device goes on under another name, since its log was put back from a copy."""
    GRANT = "grant"
    RULE = "rule"
    """Something that comes from the office alone: a person of the register, a signing phrase."""
    SET_ASIDE = "set-aside"
    """What another device did does not stand; with it goes how the job stands instead."""
    COPY = "copy"
    """A job that a lost device holds goes on as another, begun just before."""
    ADMIT = "admit"
    """What was set aside is done after all."""
    LEAVE = "leave"
    """What was to be settled is left as it is."""
    ENROL = "enrol"
    """A laptop is one of the firm; of one that is already, for how many days it may issue alone."""
    LOST = "lost"
    SHUT = "shut"
    """A device whose people are not trusted any more: whatever comes from it waits for a person."""

    @property
    def is_of_a_job(self) -> bool:
        """It makes the job another one."""
        return self in _OF_A_JOB

    @property
    def is_chained(self) -> bool:
        """It changes the job or its holder, and names what was done to that job before."""
        return self in _OF_A_JOB or self in _CHAINED

    @property
    def is_offices(self) -> bool:
        """The office alone does it."""
        return self in _OFFICES


_CHAINED = frozenset({Act.GRANT, Act.GIVE})
_OF_A_JOB = frozenset({Act.BEGIN, Act.EDIT, Act.ISSUE, Act.ADMIT})
_OFFICES = frozenset(
    {Act.GRANT, Act.RULE, Act.SET_ASIDE, Act.COPY, Act.ADMIT, Act.LEAVE, Act.ENROL, Act.LOST, Act.SHUT}
)


class Operation(NamedTuple):
    """What was done, under the name DEVICE:COUNTER, which is given once."""

    device: str
    counter: int
    """Counts what the device did, from 1, without a gap."""
    before: str
    """The digest of what it did before this; "" for the first."""
    act: Act
    job: str = ""
    fence: int = 0
    """Of the holding under which it was done."""
    after: str = ""
    """The digest of what was done to the job before, wherever; "" where nothing was, since the two logs were one."""
    at: str = ""
    """The moment by the clock of the device: shown, and never compared."""
    body: str = ""
    """What it takes to do it again, in JSON; the protocol does not look into what is done to jobs."""

    @property
    def name(self) -> str:
        """What it is known by."""
        return f"{self.device}:{self.counter}"

    @property
    def told(self) -> Mapping[str, Any]:
        """The body of an act of the protocol itself."""
        return json.loads(self.body) if self.body else {}


def digest_of(operation: Operation) -> str:
    """SHA-256 over all of it, in hexadecimal."""
    text = json.dumps(operation, ensure_ascii=False, separators=(",", ":"))
    return hashlib.sha256(text.encode(errors="surrogatepass")).hexdigest()


class StreamEnd(NamedTuple):
    """How far somebody has heard of a device."""

    counter: int = 0
    digest: str = ""


Ends = Mapping[str, StreamEnd]
"""How far somebody has heard of every device."""
