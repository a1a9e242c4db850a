"""Issued papers on disk: each complete under its number, or not there at all."""

import os
from contextlib import suppress
from pathlib import Path

from domain.job.job_number import is_job_number
from domain.log.job_log import JobLogError
from storage.access import make_folder
from storage.files import sync_folder, write_part
from storage.renaming import rename_new

KEPT = "issued"
UNFINISHED = "binding"


class IssuedPapers:
    """The folder of issued PDFs. Whoever calls holds the log's turn, so what lies unfinished is nobody's work."""

    def __init__(self, home: Path) -> None:
        self._kept = home / KEPT
        self._unfinished = home / UNFINISHED

    def path(self, number: str) -> Path:
        """Where the paper of this number is kept. JobLogError for what is no number, which may lead anywhere."""
        if not is_job_number(number):
            raise JobLogError(f"{number[:40]!r} is no number of a job. Nothing has been changed.")
        return self._kept / f"{number}.pdf"

    def place(self, number: str, pdf: bytes) -> None:
        """Have a paper on disk, where nobody looks for it yet; it gets its name by `settle`, once its record is kept."""
        for folder in (self._kept, self._unfinished):
            make_folder(folder)
        kept = self.path(number)
        if os.path.lexists(kept):
            raise JobLogError(
                f"{kept} is there already, though nothing was issued as {number}. Move it away and try again."
            )
        write_part(self._part(number), pdf)
        sync_folder(self._unfinished)

    def settle(self, number: str) -> None:
        """The log has the paper now: it gets its name, never in the place of another file."""
        part, kept = self._part(number), self.path(number)
        if part.exists():
            try:
                rename_new(part, kept)
            except FileExistsError:
                # As an earlier version left it, or put back by hand meanwhile: the same paper is enough.
                if kept.read_bytes() != part.read_bytes():
                    raise
                part.unlink()
            sync_folder(self._kept)

    def read(self, number: str) -> bytes:
        """The paper; also one whose program ended before it got its name."""
        try:
            return self.path(number).read_bytes()
        except FileNotFoundError:
            with suppress(FileNotFoundError):
                return self._part(number).read_bytes()
            raise

    def unfinished(self) -> tuple[str, ...]:
        """Numbers whose papers were begun without being settled."""
        with suppress(FileNotFoundError):
            return tuple(sorted(part.stem for part in self._unfinished.iterdir() if part.suffix == ".pdf"))
        return ()

    def take_back(self, number: str) -> None:
        """Remove what an issue that did not happen left behind, and nothing else."""
        part, kept = self._part(number), self.path(number)
        # An earlier version gave the paper its name before its record was kept, by a second name of the same file.
        if kept.exists() and part.exists() and kept.samefile(part):
            kept.unlink()
            sync_folder(self._kept)
        part.unlink(missing_ok=True)

    def _part(self, number: str) -> Path:
        return self._unfinished / self.path(number).name
