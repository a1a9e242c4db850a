"""The key of a log at work: it signs the seal of each paper, and the key that follows it."""

from pathlib import Path

from domain.job.job import Job, record_hash
from domain.job.seal_key import sealing_text, succession_text
from domain.log.job_log import JobLogError
from storage.keys.ed25519 import public_key, signature
from storage.keys.key_file import KeyFile


class SealSigning:
    """Fulfils `domain.log.store.SealSigner` with the key in a folder."""

    def __init__(self, home: Path) -> None:
        self._file = KeyFile(home)

    @property
    def kept_in(self) -> str:
        """The file that holds the key, or would."""
        return str(self._file.path)

    def begin(self) -> str:
        """Make a key where there is none; the public half of the one there is."""
        self._file.begin()
        return self.key()

    def key(self) -> str:
        """The public key; "" where there is none."""
        return public_key(secret) if (secret := self._file.secret()) else ""

    def prepare(self) -> str:
        """Make the key that is to follow, and give its public half."""
        return public_key(self._file.prepare())

    def hand_over(self, key: str) -> str:
        """The signature of the key as it is over the one that is to follow."""
        return signature(self._file.secret(), succession_text(key))

    def settle(self, key: str) -> None:
        """Have this key in its place, where it was prepared and has not come there yet."""
        if (secret := self._file.next_secret()) and public_key(secret) == key:
            self._file.settle()

    def signed(self, pdf: bytes, job: Job) -> bytes:
        """The paper of an issued job with the signature in the room left for it; one without a seal as it is."""
        from storage.paper.paper_error import PaperError
        from storage.paper.seal import seal_of, with_signature

        assert job.issued is not None
        assert job.issued.sealed_with is not None
        if not (seal := seal_of(pdf)):
            return pdf
        text = sealing_text(job.number, record_hash(job), seal, job.issued.head, job.issued.sealed_with.key)
        try:
            return with_signature(pdf, signature(self._file.secret(), text))
        except PaperError as error:
            raise JobLogError(str(error)) from error
