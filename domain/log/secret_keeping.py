"""What a log asks of the keeper of its secrets: signing phrases hashed, and a key that seals papers."""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    from domain.job.job import Job


class PhraseHashing(Protocol):
    """Makes of a signing phrase what may be kept of it. It stands outside the domain: it takes chance, and time."""

    def hashed(self, phrase: str) -> str:
        """What is kept of a phrase."""
        ...

    def fits(self, phrase: str, kept: str) -> bool:
        """The phrase is the one that was kept."""
        ...


class SealSigner(Protocol):
    """Signs the seals of papers with the secret key of a log. It stands outside the domain: it holds what nobody may read."""

    @property
    def kept_in(self) -> str:
        """Where the key is kept, or would be."""
        ...

    def begin(self) -> str:
        """Make a key where there is none; the public half of the one there is."""
        ...

    def key(self) -> str:
        """The public key; "" where there is none."""
        ...

    def prepare(self) -> str:
        """Make the key that is to follow, and give its public half."""
        ...

    def hand_over(self, key: str) -> str:
        """The signature of the key as it is over the one that is to follow."""
        ...

    def settle(self, key: str) -> None:
        """Have this key in its place, where it was prepared and has not come there yet."""
        ...

    def signed(self, pdf: bytes, job: Job) -> bytes:
        """The paper of an issued job with its signature."""
        ...
