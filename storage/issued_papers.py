"""Issued papers on disk: complete and under their number, or not there at all."""

import os
from contextlib import suppress
from pathlib import Path

from domain.job_log import JobLogError


class IssuedPapers:
    """The folder of issued PDFs. Whoever calls holds the log's turn, so what lies unfinished is nobody's work."""

    def __init__(self, home: Path) -> None:
        self._kept = home / "issued"
        self._unfinished = home / "binding"

    def path(self, number: str) -> Path:
        """Where the paper of this number is kept."""
        return self._kept / f"{number}.pdf"

    def place(self, number: str, pdf: bytes) -> None:
        """Put a paper in its place; never over another. It counts as unfinished until `settle`."""
        for folder in (self._kept, self._unfinished):
            folder.mkdir(mode=0o700, exist_ok=True)
        part = self._part(number)
        _write_new(part, pdf)
        try:
            # Unlike a rename, a link never takes the place of another file.
            os.link(part, self.path(number))
        except FileExistsError as trouble:
            part.unlink()
            raise JobLogError(
                f"{self.path(number)} is there already, though nothing was issued as {number}; move it away and try again."
            ) from trouble
        _sync_folder(self._kept)

    def settle(self, number: str) -> None:
        """The log has the paper now."""
        self._part(number).unlink(missing_ok=True)

    def unfinished(self) -> tuple[str, ...]:
        """Numbers whose papers were put in place, or begun, without being settled."""
        with suppress(FileNotFoundError):
            return tuple(sorted(part.stem for part in self._unfinished.iterdir() if part.suffix == ".pdf"))
        return ()

    def take_back(self, number: str) -> None:
        """Remove what an issue that did not happen left behind, and nothing else."""
        part, kept = self._part(number), self.path(number)
        if kept.exists() and kept.samefile(part):
            kept.unlink()
            _sync_folder(self._kept)
        part.unlink(missing_ok=True)

    def _part(self, number: str) -> Path:
        return self._unfinished / f"{number}.pdf"


def _write_new(path: Path, content: bytes) -> None:
    descriptor = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL | os.O_CLOEXEC, 0o600)
    with os.fdopen(descriptor, "wb") as file:
        file.write(content)
        file.flush()
        os.fsync(descriptor)


def _sync_folder(folder: Path) -> None:
    descriptor = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)
