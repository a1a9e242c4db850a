"""Papers opened again: what each page says."""

from dataclasses import dataclass, field
from functools import cached_property
from typing import Any

import pymupdf

from domain.gate.assessment import Pack, issue
from domain.job.job import Job, canonical
from domain.log.job_log import BoundPaper
from storage.pdf import bind
from tests.builders import AT, INSPECTOR

_MADE: dict[bytes, BoundPaper] = {}
"""What was bound in this process already, by its record: the same record gives the same bytes, which a test of its own holds."""


def issued(job: Job, number: str = "T-0001") -> BoundPaper:
    """A signed job passed through the gate and bound; the same one once a process."""
    pack = issue(job.model_copy(update={"number": number}), by=INSPECTOR, at=AT, people=())
    assert isinstance(pack, Pack), pack
    record = canonical(pack.job)
    if record not in _MADE:
        _MADE[record] = bind(pack)
    return _MADE[record]


@dataclass(frozen=True)
class Paper:
    """A bound paper."""

    bound: BoundPaper
    document: Any = field(init=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "document", pymupdf.open(stream=self.bound.pdf, filetype="pdf"))

    @cached_property
    def pages(self) -> list[str]:
        """The text of each page."""
        return [
            page.get_text(flags=pymupdf.TEXT_PRESERVE_WHITESPACE | pymupdf.TEXT_PRESERVE_LIGATURES)
            for page in self.document
        ]

    @cached_property
    def said(self) -> str:
        """The text of all pages with blanks squeezed."""
        return " ".join(" ".join(self.pages).split())

    def with_words(self, words: str) -> list[str]:
        """Pages that hold these words."""
        return [page for page in self.pages if words in page]
