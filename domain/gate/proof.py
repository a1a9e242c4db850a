"""What a file shows of itself, and the answer whether it is a paper as it was issued."""

from datetime import datetime
from enum import StrEnum

from domain.job.job import Job
from domain.value import Value


class NotAPdfError(ValueError):
    """The file is no PDF and bears no seal; the message is a plain sentence."""


class TooMuchInItError(ValueError):
    """Reading the file takes more memory or time than any pack does; the message is a plain sentence."""


class ProofVerdict(StrEnum):
    """The answer in a word."""

    UNALTERED = "unaltered"
    REPLACED = "replaced"
    """Unaltered, and a later document stands in its place."""
    ALTERED = "altered"
    UNKNOWN = "unknown"
    NOT_THEIRS = "not theirs"
    """Whole, but not signed with the key of the firm that was asked about."""


class Seal(StrEnum):
    """How the seal of a file stands."""

    HOLDS = "holds"
    BROKEN = "broken"
    ABSENT = "absent"


class LaterState(StrEnum):
    """What stands behind the bytes of a paper as issued."""

    HOLDS = "one signature over the whole file, which holds"
    BROKEN = "a signature that does not hold"
    NOT_WHOLE = "a signature, and changes after it"
    CHANGED = "a signature by which more was changed than it takes to sign"
    ELSE = "something that is no signature"
    UNCHECKED = "something that cannot be looked at with what is installed here"


class SignerTrust(StrEnum):
    """Who says whose a certificate is."""

    AUTHORITY = "an authority named here"
    ITSELF = "itself"
    NOBODY = "nobody known here"


class LaterSignature(Value):
    """A signature that somebody put behind a paper with a certificate of their own."""

    state: LaterState
    by: str = ""
    """As the certificate names them."""
    at: datetime | None = None
    is_time_stamped: bool = False
    """The time is a service's, not the signer's own."""
    certificate: str = ""
    """SHA-256."""
    trust: SignerTrust = SignerTrust.NOBODY


class Exhibit(Value):
    """What a file shows of itself. Where something stands behind a paper as issued, the rest is about that paper."""

    sha256: str
    """Of the whole file."""
    seal: Seal
    issued_bytes: int = 0
    """How many of its first bytes are the paper as issued, where more follow."""
    issued_sha256: str = ""
    later: LaterSignature | None = None
    """What the bytes behind them are."""
    is_ours: bool = False
    """Something in it says that this program made it."""
    is_draft: bool = False
    is_letter: bool = False
    """It says that it is a letter of this program."""
    number: str = ""
    """Which document it says it is."""
    record: Job | None = None
    """The record attached to it."""
    record_sha256: str = ""
    signature: Seal = Seal.ABSENT
    """How the signature beside the seal stands, by the key that the record names."""
    keys: tuple[str, ...] = ()
    """Fingerprints of that key and of those before it that led to it, the newest first; none where there is no key."""
    unreadable: str = ""
    """Why nothing more can be read from it."""


class Proof(Value):
    """The answer about a file."""

    verdict: ProofVerdict
    says: str
    notes: tuple[str, ...] = ()
    """What else is known, a sentence each."""
    number: str = ""
    sha256: str = ""
    record_sha256: str = ""
    issued_at: datetime | None = None
    issued_by: str = ""
    replaced_by: str = ""
    signed_later: LaterSignature | None = None
    """What somebody put behind the paper."""
