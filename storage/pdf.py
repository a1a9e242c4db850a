"""Packs and drafts bound into PDF files; the only importer of the PDF writer, which is loaded at the first page."""

import gc
from collections.abc import Generator
from contextlib import contextmanager
from threading import Lock

from domain.civil_time import written_moment
from domain.coach.summary import Summary
from domain.coach.summary_sheet import TITLE, summary_sheet
from domain.coach.visit_page import ROOMS, visit_page
from domain.coach.visit_sheet import TITLE as VISIT_TITLE
from domain.coach.visit_sheet import Visit
from domain.dates import written
from domain.gate.assessment import Pack
from domain.job.job import Job, canonical
from domain.job.logo import Logo
from domain.job.people import Firm
from domain.log.job_log import BoundPaper
from domain.log.put_right.letter import TITLE as LETTER_TITLE
from domain.log.put_right.letter import Letter, letter_sheet
from domain.sheets import sheets_of
from domain.sheets.board_chart import BoardPapers
from domain.sheets.sheet import Sheet, TextSheet
from domain.value import says_nothing
from domain.words import on_one_line
from storage.paper.chart_data import chart_data
from storage.paper.imprint import Imprint
from storage.paper.pack_data import pack_data
from storage.paper.packing import packed
from storage.paper.progress import tell
from storage.paper.read_back import read_back
from storage.paper.seal import sealed
from storage.paper.tails import set_without_tail
from storage.paper.typesetting import set_pages
from storage.paper.words_pdf import set_words

_ONE_AT_A_TIME = Lock()
"""The PDF library does not promise to work for two threads at once."""

_NAME = 40
"""Letters of a name that the head of a page has room for."""


def bind(pack: Pack) -> BoundPaper:
    """The pack as issued, but for the log's signature. PaperError when it cannot be set or does not read back; then there is no paper."""
    job = pack.job
    assert job.issued is not None
    return _bound(
        job,
        Imprint(
            paper=job.profile.title,
            number=job.number,
            foot=f"{job.edition_in_full} · issued {written_moment(job.issued.at)}, by {job.issued.by}",
            author=job.firm.name,
            firm=_letterhead(job.firm),
            at=job.issued.at,
            record=canonical(job).decode(),
            is_signed=job.issued.sealed_with is not None,
            logo=job.issued.logo,
        ),
    )


def bind_draft(job: Job, logo: Logo | None = None) -> BoundPaper:
    """The job as it stands, marked as a draft on every page; `logo` is its firm's."""
    kind = job.profile.kind
    return _bound(
        job,
        Imprint(
            paper=job.profile.title,
            number=job.number or "no number yet",
            foot=f"{job.edition_in_full} · DRAFT, not a {kind}",
            author=job.firm.name,
            firm=_letterhead(job.firm),
            at=None,
            logo=logo,
            draft_mark=f"DRAFT, not a {kind}",
        ),
    )


def bind_summary(summary: Summary) -> BoundPaper:
    """One person's practice on one page."""
    return _set_words(
        summary_sheet(summary), Imprint(TITLE, summary.who[:_NAME], f"seen on {written(summary.on)}", "", None)
    )


def bind_visit(visit: Visit) -> BoundPaper:
    """The visit sheet of a job, on one page: its longest texts are closed with … as far as that takes."""
    job = visit.job
    foot = f"drawn on {written(visit.on)}"
    imprint = Imprint(
        VISIT_TITLE, job.number or "no number yet", foot, job.firm.name, None, _letterhead(job.firm), visit.logo
    )
    bound = _set_words(visit_page(visit, ROOMS[0]), imprint)
    for room in ROOMS[1:]:
        if bound.pages > 1:
            bound = _set_words(visit_page(visit, room), imprint)
    return bound


def bind_letter(letter: Letter) -> BoundPaper:
    """The letter that confirms that a report has been put right."""
    report = letter.put_right.report
    imprint = Imprint(
        LETTER_TITLE,
        report.number,
        f"written on {written(letter.on)}",
        report.firm.name,
        None,
        _letterhead(report.firm),
        report.issued.logo if report.issued else None,
    )
    return _set_words(letter_sheet(letter), imprint)


def bind_charts(papers: BoardPapers, sheet: str) -> BoundPaper:
    """Charts to fix inside boards and labels to cut out, on sheets `a4` or `a5`; a draft's say so on every page."""
    data, expected = chart_data(papers, sheet)
    with _ONE_AT_A_TIME:
        made = set_pages(data, "", "chart.typ")
        pdf, pages = packed(made.pdf, sealing=False, signing=False)
        read_back(pdf, expected, made.marks)
    return BoundPaper(pdf=pdf, pages=pages)


def _set_words(sheet: TextSheet, imprint: Imprint) -> BoundPaper:
    with _ONE_AT_A_TIME:
        pdf, pages = set_words(sheet, imprint)
    return BoundPaper(pdf=pdf, pages=pages)


def _letterhead(firm: Firm) -> tuple[str, ...]:
    registered = "" if says_nothing(firm.membership) else f"Registration: {firm.membership}"
    lines = (firm.name, on_one_line(firm.address), firm.contact, registered)
    return tuple(line for line in lines if not says_nothing(line))


def _bound(job: Job, imprint: Imprint) -> BoundPaper:
    with _nothing_collected():
        return _set(sheets_of(job), imprint)


@contextmanager
def _nothing_collected() -> Generator[None]:
    """A paper makes many values and drops few of them on its way: looking for those takes a tenth of its time."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


def _set(sheets: tuple[Sheet, ...], imprint: Imprint) -> BoundPaper:
    data, expected = pack_data(sheets, imprint)
    with _ONE_AT_A_TIME:
        tell(f"setting {len(sheets)} sheets")
        made = set_without_tail(data, imprint.record)
        tell("packing the file")
        pdf, pages = packed(made.pdf, sealing=bool(imprint.record), signing=imprint.is_signed)
        if imprint.record:
            pdf = sealed(pdf)
        read_back(pdf, expected, made.marks)
        tell("")
    return BoundPaper(pdf=pdf, pages=pages)
