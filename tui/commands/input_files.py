"""What a command is given to work on: a file, or a word that may name one."""

from collections.abc import Generator
from contextlib import contextmanager
from pathlib import Path

from domain.job.exchange import DOCUMENT_MAX, DOCUMENTS_MAX, ExchangeError
from domain.job.job import Job
from domain.words import uncapitalised
from tui.commands.command import GivenDocuments, UnusableError
from tui.given_file import read_given_file

PACK_MAX = 64 * 1024 * 1024
"""Bytes; no pack comes near it."""


def document_in(name: str, most: int = DOCUMENT_MAX) -> bytes:
    """What a file holds; no more is read than it may have, and a byte to show that there is more."""
    try:
        return read_given_file(name, most)
    except IsADirectoryError:
        raise UnusableError(f"{name} is a folder, not a file") from None
    except FileNotFoundError:
        raise UnusableError(f"There is no file {name}") from None
    except (OSError, ValueError) as error:
        raise UnusableError(f"{name} cannot be read: {getattr(error, 'strerror', None) or error}") from None


def is_file_name(word: str) -> bool:
    """A word that names a file rather than a job of the log."""
    return "/" in word or word.casefold().endswith(".json") or Path(word).exists()


def job_in(name: str, documents: GivenDocuments) -> Job:
    """The job a file holds."""
    with _about(name):
        return documents.job_given(document_in(name))


def jobs_in(name: str, documents: GivenDocuments) -> tuple[Job, ...] | Job:
    """The job a file holds, or the many in its list."""
    with _about(name):
        return documents.jobs_given(document_in(name, DOCUMENTS_MAX))


@contextmanager
def _about(name: str) -> Generator[None]:
    try:
        yield
    except ExchangeError as error:
        says = str(error)
        raise UnusableError(f"{name}: {uncapitalised(says)}") from None
