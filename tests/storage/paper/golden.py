"""What the papers of the demo say, page by page, kept as text: a change of a sheet shows as a change of lines.

python -m tests.storage.paper.golden writes the texts anew, into golden/.
"""

import re
import sys
import tomllib
from collections.abc import Callable, Mapping
from datetime import date
from functools import cache
from pathlib import Path

import pymupdf

from domain.coach.case import cases
from domain.coach.summary import summary_of
from domain.coach.visit_sheet import Visit
from domain.editing.commands import Declined
from domain.editing.reducer import apply
from domain.gate.assessment import Pack, issue
from domain.job.instrument import Instruments
from domain.job.job import Job
from domain.job.people import Firm
from domain.log.job_log import BoundPaper
from domain.log.put_right.letter import Letter
from domain.log.put_right.remedial_status import PutRight, RemedialItem, Stage
from domain.sheets.board_chart import board_papers
from storage.pdf import bind, bind_charts, bind_draft, bind_letter, bind_summary, bind_visit
from tui.commands.demo import demo_files, scenarios
from tui.commands.scenario import signed, started, typed_sections

KEPT = Path(__file__).parent / "golden"
ON = date(2026, 3, 12)
_DIGEST = re.compile(r"\b[0-9a-f]{64}\b")
"""Differs with every byte of the file, and is no matter of words."""
_SAME_LINE = 3.0
"""Points by which the feet of words on one line may differ."""


@cache
def drafted(name: str) -> Job:
    """A job of the demo with all that its file tells of it but its issue."""
    told = scenarios()[name]
    firm = tomllib.loads(demo_files().joinpath("firm.toml").read_text(encoding="utf-8"))
    testers = firm.pop("testers")
    job: Job | Declined
    if told.replaces:
        because = {"replaces": "T-0000", "replaces_because": told.replaces_because}
        job = drafted(told.replaces).model_copy(update={"signatures": (), **because})
    else:
        job = started(told, Firm(**firm), Instruments(multifunction=testers[told.by]))
    for command in (*(typed_sections(told) if told.replaces else ()), *signed(told)):
        assert isinstance(job, Job), job
        job = apply(job, command)
    assert isinstance(job, Job), job
    return job


@cache
def demo_job(name: str) -> Pack:
    """A job of the demo, issued as its file tells it, in no log."""
    told = scenarios()[name].issue
    assert told
    pack = issue(drafted(name).model_copy(update={"number": "T-0001"}), by=told.by, at=told.at, people=())
    assert isinstance(pack, Pack), pack
    return pack


@cache
def demo_pack(name: str) -> BoundPaper:
    """The pack of a job of the demo, or its draft where the demo does not issue it."""
    return bind(demo_job(name)) if scenarios()[name].issue else bind_draft(drafted(name))


def _letter() -> BoundPaper:
    report = demo_job("05-farmhouse-report").job
    items = tuple(
        RemedialItem(observation=each, stage=Stage.CLOSED, paper="QN-118 of Quenby Electrics, 9 March 2026")
        for each in report.observations
        if each.code.is_pressing
    )
    return bind_letter(Letter(put_right=PutRight(report=report, items=items), on=ON))


def _charts() -> BoundPaper:
    job = demo_job("01-consumer-unit").job
    return bind_charts(board_papers(job, job.boards), "a4")


PAPERS: Mapping[str, Callable[[], BoundPaper]] = {
    "certificate": lambda: demo_pack("01-consumer-unit"),
    "minor-works": lambda: demo_pack("02-socket-added"),
    "report": lambda: demo_pack("05-farmhouse-report"),
    "draft": lambda: bind_draft(demo_job("02-socket-added").job.model_copy(update={"issued": None, "signatures": ()})),
    "charts": _charts,
    "letter": _letter,
    "visit-sheet": lambda: bind_visit(Visit(job=demo_job("05-farmhouse-report").job, on=ON)),
    "practice": lambda: bind_summary(summary_of("Wren Tansy", (), cases(), ON)),
}
"""Each kind of paper by the name of its text."""


def text_of(paper: BoundPaper) -> str:
    """Its pages line by line, as they are seen, with what stands side by side on one line."""
    with pymupdf.open(stream=paper.pdf, filetype="pdf") as document:
        pages = [_lines(page.get_text("words")) for page in document]
    lines = [line for at, page in enumerate(pages, start=1) for line in (f"--- page {at} of {len(pages)}", *page)]
    return _DIGEST.sub("(digest)", "\n".join(lines)) + "\n"


def _lines(words: list[tuple[float, float, float, float, str]]) -> list[str]:
    """Words by their feet, each line from left to right."""
    rows: list[tuple[float, list[tuple[float, str]]]] = []
    for x, _, _, foot, word, *_ in sorted(words, key=lambda word: word[3]):
        if not rows or foot - rows[-1][0] > _SAME_LINE:
            rows.append((foot, []))
        rows[-1][1].append((x, word))
    return [" ".join(word for _, word in sorted(row)) for _, row in rows]


def main() -> None:
    """Write every text anew, and say which came out otherwise."""
    KEPT.mkdir(exist_ok=True)
    for name, made in PAPERS.items():
        file, text = KEPT / f"{name}.txt", text_of(made())
        was = file.read_text(encoding="utf-8") if file.exists() else ""
        file.write_text(text, encoding="utf-8")
        sys.stdout.write(f"{name}: {'as it was' if was == text else 'written anew'}\n")


if __name__ == "__main__":
    main()
