"""Packs and drafts bound into PDF files; the only importer of the PDF writer, which is loaded at the first page."""

from datetime import datetime
from threading import Lock
from typing import Any

from domain.civil_time import written_moment
from domain.coach.summary import Summary
from domain.coach.summary_sheet import TITLE, summary_sheet
from domain.dates import written
from domain.gate.assessment import Pack
from domain.job.job import Job, canonical
from domain.log.job_log import BoundPaper
from domain.log.put_right.letter import TITLE as LETTER_TITLE
from domain.log.put_right.letter import Letter, letter_sheet
from domain.sheets import sheets_of
from domain.sheets.sheet import Sheet, TextSheet
from storage.paper.attaching import Attachment
from storage.paper.finishing import Imprint, finished
from storage.paper.press import Press
from storage.paper.read_back import read_back
from storage.paper.schedule_sheet import set_schedule_sheet
from storage.paper.seal import seal_of, sealed
from storage.paper.text_sheet import set_text_sheet

_ONE_AT_A_TIME = Lock()
"""The PDF library does not promise to work for two threads at once."""

_NAME = 40
"""Letters of a name that the head of a page has room for."""


def bind(pack: Pack) -> BoundPaper:
    """The pack as issued. PaperError when it cannot be set or does not read back; then there is no paper."""
    job = pack.job
    assert job.issued is not None
    return _bound(
        job,
        Imprint(
            paper=job.profile.title,
            number=job.number,
            foot=f"{job.edition_in_full} · issued {written_moment(job.issued.at)}, by {job.issued.by}",
            author=job.firm.name,
            at=job.issued.at,
            record=_record(job, job.issued.at),
        ),
    )


def bind_draft(job: Job) -> BoundPaper:
    """The job as it stands, marked as a draft on every page."""
    kind = job.profile.kind
    return _bound(
        job,
        Imprint(
            paper=job.profile.title,
            number=job.number or "no number yet",
            foot=f"{job.edition_in_full} · DRAFT - not a {kind}",
            author=job.firm.name,
            at=None,
            draft_mark=f"DRAFT - not a {kind}",
        ),
    )


def bind_summary(summary: Summary) -> BoundPaper:
    """One person's practice on one page."""
    return _set(
        (summary_sheet(summary),), Imprint(TITLE, summary.who[:_NAME], f"seen on {written(summary.on)}", "", None)
    )


def bind_letter(letter: Letter) -> BoundPaper:
    """The letter that confirms that a report has been put right."""
    report = letter.standing.report
    return _set(
        (letter_sheet(letter),),
        Imprint(LETTER_TITLE, report.number, f"written on {written(letter.on)}", report.firm.name, None),
    )


def _bound(job: Job, imprint: Imprint) -> BoundPaper:
    return _set(sheets_of(job), imprint)


def _set(sheets: tuple[Sheet, ...], imprint: Imprint) -> BoundPaper:
    with _ONE_AT_A_TIME:
        press = open_press()
        for sheet in sheets:
            if isinstance(sheet, TextSheet):
                set_text_sheet(press, sheet, press.engine.render)
            else:
                set_schedule_sheet(press, sheet)
        pdf, pages = finished(press, imprint)
        if press.seal:
            pdf = sealed(pdf)
            press.seal.text = seal_of(pdf)
        read_back(pdf, press.promises)
    return BoundPaper(pdf=pdf, pages=pages)


def _record(job: Job, at: datetime) -> Attachment:
    return Attachment("record.json", "The record this document was made from", canonical(job), at)


def open_press() -> Press:
    """A press with no page yet."""
    from markdown_pdf import MarkdownPdf

    untyped: Any = MarkdownPdf

    class Writer(untyped):
        """The writer with what the press needs made reachable."""

        def __init__(self) -> None:
            untyped.__init__(self, toc_level=2, plugins=None)
            self.meta = {}

        def record(self, position: Any) -> None:
            self._recorder(position)

        def document(self) -> Any:
            return self._make_doc()

        def render(self, markdown: str) -> str:
            return self.m_d.render(markdown)

    return Press(Writer())
