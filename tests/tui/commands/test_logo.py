"""The logo of a firm, kept, shown and taken off."""

from pathlib import Path

import pymupdf

from domain.coach.visit_sheet import Visit
from domain.job.people import Firm
from domain.log.firm_logo import logo_of
from domain.log.job_log import BoundPaper
from domain.register.entries import KnownFirm, RegisterKind
from storage.logos import made_logo
from storage.pdf import bind_draft, bind_visit
from storage.sqlite_job_log import SqliteJobLog
from tests.builders import AT, complete_minor_works
from tests.tui.commands.command_line import ohmfolio, sentence_of
from tests.tui.screens.services import services_in
from tui.screens.paper_making import draft_of
from tui.screens.register_forms import entry_from, typed_of

SVG = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 2 1"><rect width="2" height="1" fill="#0d4d54"/></svg>'


def test_a_logo_is_kept_with_a_firm_of_the_register_and_taken_off_again(tmp_path: Path):
    home, file = tmp_path / "home", tmp_path / "logo.svg"
    file.write_text(SVG, encoding="utf-8")
    log = SqliteJobLog.open(home)
    log.register(KnownFirm(name="Harebell Electrical"), who="tamsin", at=AT)
    log.close()
    assert ohmfolio("logo", "Somebody Else", file, "--says", "A bar", home=home).code == 1
    assert "needs --says" in sentence_of(ohmfolio("logo", "Harebell Electrical", file, home=home))
    file.with_suffix(".txt").write_text("Minutes", encoding="utf-8")
    refused = ohmfolio("logo", "Harebell Electrical", file.with_suffix(".txt"), "--says", "A bar", home=home)
    assert "nothing was changed" in sentence_of(refused)
    kept = ohmfolio("logo", "harebell electrical", file, "--says", "A bar", "--json", home=home)
    assert kept.value["logo"]["kind"] == "svg"
    log = SqliteJobLog.open(home)
    (firm,) = log.registered(RegisterKind.FIRM, "Harebell")
    log.close()
    form = {**typed_of(firm.entry), "contact": "01632 960104"}
    assert entry_from(RegisterKind.FIRM, form, firm.entry).logo == firm.entry.logo, "the form leaves it alone"
    assert ohmfolio("logo", "Harebell Electrical", "--none", "--json", home=home).value["logo"] is None


def test_a_draft_and_a_visit_sheet_bear_the_logo_that_the_firm_of_the_job_has_now(tmp_path: Path):
    services, job = services_in(tmp_path), complete_minor_works(sign=False)
    logo = made_logo(SVG.encode(), "A bar")
    services.log.register(KnownFirm(name=job.firm.name.upper(), logo=logo), who="tamsin", at=AT)
    drawn = draft_of(job, tmp_path, services)
    assert Path(drawn.copy).read_bytes().endswith(b"A bar")
    assert logo_of(services.log, job) == logo
    assert logo_of(services.log, job.model_copy(update={"firm": Firm(name="Somebody Else")})) is None
    on = AT.date()
    for bare, borne in (
        (bind_draft(job), bind_draft(job, logo)),
        (bind_visit(Visit(job=job, on=on)), bind_visit(Visit(job=job, on=on, logo=logo))),
    ):
        assert _drawn_on_first_page(borne) > _drawn_on_first_page(bare)


def _drawn_on_first_page(bound: BoundPaper) -> int:
    with pymupdf.open(stream=bound.pdf, filetype="pdf") as paper:
        return len(paper[0].get_drawings()) + len(paper[0].get_images())
