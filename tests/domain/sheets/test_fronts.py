from datetime import timedelta

import pytest

from domain.editing.commands import Choose, ClearSnag, Explain, SetEdition, Sign
from domain.edition import Edition
from domain.forms.choice.chosen import ChosenPapers
from domain.forms.form_set import FormSet
from domain.gate.assessment import Pack, assess, issue, unsigned_roles
from domain.inspection.observation import Code
from domain.job.board import Board
from domain.job.box import Box, boxes_of
from domain.job.circuit import Circuit
from domain.job.finding import Severity
from domain.job.job import SECTIONS, Job
from domain.job.people import Firm
from domain.job.signatories import Signatories
from domain.job.signature import Role, roles_for
from domain.job.supply import Supply
from domain.place import Place
from domain.sheets import sheets_of
from domain.sheets.sheet import Banner, Contents, ScheduleSheet, Sheet, Signing, Tone, ValueOrigin
from tests.builders import (
    AT,
    INSPECTOR,
    ON,
    complete_certificate,
    complete_minor_works,
    complete_report,
    done,
    enter,
    entered,
    fresh,
    signed,
    snagged,
)
from tests.domain.sheets.readers import entries_on, first_text_sheet, said_on

JOBS = {
    FormSet.EIC: complete_certificate,
    FormSet.MEIWC: complete_minor_works,
    FormSet.EICR: complete_report,
}


@pytest.mark.parametrize("form_set", FormSet)
def test_a_box_kept_off_paper_while_empty_is_on_it_once_something_was_typed(form_set: FormSet):
    job = fresh(form_set)
    board = job.boards[0]
    at_circuit = {"board": board.id, "circuit": board.circuits[0].id}
    for owner, section, at in (
        (Supply, "supply", {}),
        (Board, "boards", {"board": board.id}),
        (Circuit, "boards", at_circuit),
    ):
        for name, box in boxes_of(owner).items():
            if box.quiet and box.is_asked(form_set):
                told = entered(job, {name: box.choices[0] if box.choices else "47"}, section=section, **at)
                assert _says(told, box)
                assert not _says(job, box)


def _says(job: Job, box: Box) -> bool:
    """The sheets name the box, as a label or at the head of a column."""
    sheets = sheets_of(job)
    columns = {column.heading for sheet in sheets if isinstance(sheet, ScheduleSheet) for column in sheet.columns}
    return box.label in {entry.label for sheet in sheets for entry in entries_on(sheet)} or box.heading in columns


@pytest.mark.parametrize("form_set", FormSet)
def test_every_box_that_is_asked_for_has_its_place_on_paper(form_set: FormSet):
    job = fresh(form_set)
    places = {entry.place for sheet in sheets_of(job) for entry in entries_on(sheet)}
    labels = [entry.label for sheet in sheets_of(job) for entry in entries_on(sheet)]
    shown_with_signatures, shown_in_the_letterhead = Signatories, Firm
    for section, owner in SECTIONS.items():
        if owner not in {shown_with_signatures, shown_in_the_letterhead}:
            for name, box in boxes_of(owner).items():
                if box.is_asked(form_set) and not box.quiet and not name.endswith("_due"):
                    assert Place(section=section, box=name) in places
    for box in boxes_of(Board).values():
        if box.is_asked(form_set) and not box.quiet:
            assert box.label in labels


@pytest.mark.parametrize("form_set", FormSet)
def test_what_is_missing_on_a_draft_stands_as_a_blank_and_a_complete_job_has_none(form_set: FormSet):
    blanks = [entry for entry in entries_on(sheets_of(fresh(form_set))[0]) if entry.origin is ValueOrigin.BLANK]
    assert {"Client", "Installation address"} <= {entry.label for entry in blanks}
    complete = sheets_of(JOBS[form_set]())
    assert not [entry for sheet in complete for entry in entries_on(sheet) if entry.origin is ValueOrigin.BLANK]


@pytest.mark.parametrize("form_set", [FormSet.EIC, FormSet.EICR])
def test_the_front_names_the_sheets_that_follow_it(form_set: FormSet):
    sheets = sheets_of(JOBS[form_set]())
    assert _enclosed(sheets) == [(sheet.title, sheet.subtitle) for sheet in sheets[1:]]


def test_a_continuation_sheet_is_counted_too():
    job = done(complete_certificate(sign=False), enter("work", "extent", "All of it. " * 400))
    sheets = sheets_of(job)
    assert sheets[1].title == "Continuation sheet"
    assert _enclosed(sheets)[0][0] == "Continuation sheet"


def _enclosed(sheets: tuple[Sheet, ...]) -> list[tuple[str, str]]:
    (contents,) = (block for block in first_text_sheet(sheets).blocks if isinstance(block, Contents))
    return list(contents.sheets)


def test_every_role_is_signed_apart_with_name_moment_and_record():
    job = complete_certificate()
    values = [entry.value for entry in entries_on(sheets_of(job)[0])]
    assert values.count("2 March 2026, 16:30 GMT") == 3
    assert sum(value.startswith(f"{INSPECTOR}, on screen") for value in values) == 3
    assert any(value.endswith(job.signatures[0].fingerprint[:16]) for value in values)


def test_a_declaration_names_the_amendment_and_the_firm_whose_address_the_sheet_gives():
    for entries in _signings(complete_certificate()).values():
        assert entries["BS 7671 as amended to"] == "2024 (Amendments 2 and 3)"
        assert entries["For"] == "Harebell Electrical"
        assert entries["Address and telephone"] == "as above"


def test_an_earlier_edition_is_declared_as_the_person_names_it():
    earlier = SetEdition(edition=Edition.EARLIER, named="BS 7671:2008 to Amendment 3 of 2015")
    job = done(complete_certificate(), earlier)
    for entries in _signings(job).values():
        assert entries["BS 7671 as amended to"] == "BS 7671:2008 to Amendment 3 of 2015"
    front = {entry.label: entry.value for entry in entries_on(sheets_of(job)[0])}
    assert front["Edition worked to"] == "BS 7671:2008 to Amendment 3 of 2015"


def test_a_designer_of_another_firm_is_printed_with_that_firm_and_never_with_this_one_s_address():
    own = {"design_firm": "Fernhill Design", "design_address": "2 Weir Lane\nWetherham"}
    signings = _signings(entered(complete_certificate(sign=False), own, section="signatories"))
    assert signings["Declaration: design"]["For"] == "Fernhill Design"
    assert signings["Declaration: design"]["Address"] == "2 Weir Lane\nWetherham"
    assert signings["Declaration: design"]["Telephone or e-mail"] == "None"
    assert signings["Declaration: construction"]["For"] == "Harebell Electrical"


def test_a_second_designer_declares_and_signs_for_their_part():
    shared = {"second_designer": "Orla Tench", "second_part": "The submain"}
    job = entered(complete_certificate(sign=False), shared, section="signatories")
    assert job.roles[1] is Role.SHARED_DESIGN
    assert _signings(job)["Declaration: design, second designer"]["Part of the design"] == "The submain"
    assert unsigned_roles(signed(job)) == ()
    assert Role.SHARED_DESIGN in unsigned_roles(
        done(job, *(Sign(role=role, name=INSPECTOR, at=AT) for role in roles_for(FormSet.EIC)))
    )


def _signings(job: Job) -> dict[str, dict[str, str]]:
    return {
        block.heading: {entry.label: entry.value for row in block.entries for entry in row}
        for block in first_text_sheet(sheets_of(job)).blocks
        if isinstance(block, Signing)
    }


def test_a_signature_that_no_longer_fits_the_record_is_not_printed():
    job = complete_certificate()
    changed = job.model_copy(update={"client": job.client.model_copy(update={"name": "Somebody else"})})
    assert f"{INSPECTOR}, on screen" not in said_on(sheets_of(changed))


def test_number_issue_and_the_replaced_document_are_printed():
    job = complete_certificate().model_copy(
        update={"number": "E-17", "replaces": "E-9", "replaces_because": "wrong house"}
    )
    job = signed(job)
    pack = issue(job, by="Ida Fennel", at=AT + timedelta(days=1), people=())
    assert isinstance(pack, Pack)
    said = said_on(sheets_of(pack.job))
    assert "E-17" in said
    assert "E-9" in said
    assert "wrong house" in said
    assert "3 March 2026, 16:30 GMT, by Ida Fennel" in said


def test_the_reason_for_other_papers_than_advised_is_printed():
    chosen = ChosenPapers(
        form_set=FormSet.EIC, advised=FormSet.MEIWC, because="Two visits, and the client wants one paper"
    )
    job = done(complete_certificate(sign=False), Choose(chosen=chosen))
    said = said_on(sheets_of(job))
    assert "Two visits, and the client wants one paper" in said
    assert "Minor Electrical Installation Works Certificate" in said


def test_snags_put_right_are_on_record_with_how_and_by_whom():
    job = snagged(complete_certificate(sign=False), "Lid screw missing")
    job = done(job, ClearSnag(snag=job.snags[0].id, how="Screw fitted", by="Piers Holloway", on=ON))
    said = said_on(sheets_of(job))
    assert "Lid screw missing" in said
    assert "Screw fitted" in said
    assert "Piers Holloway, 2 March 2026" in said


def _issued(job: Job) -> Job:
    pack = issue(job, by=INSPECTOR, at=AT, people=())
    assert isinstance(pack, Pack), pack
    return pack.job


def _banner(job: Job) -> Banner:
    return next(block for block in first_text_sheet(sheets_of(job)).blocks if isinstance(block, Banner))


@pytest.mark.parametrize(
    ("codes", "says", "tone"),
    [
        ((), "SATISFACTORY", Tone.GOOD),
        ((Code.C3,), "SATISFACTORY", Tone.GOOD),
        ((Code.C2, Code.C3), "UNSATISFACTORY", Tone.BAD),
        ((Code.FI,), "UNSATISFACTORY", Tone.BAD),
    ],
)
def test_a_report_opens_with_its_outcome(codes: tuple[Code, ...], says: str, tone: Tone):
    banner = _banner(_issued(complete_report(*codes)))
    assert (banner.says, banner.tone) == (says, tone)


def test_a_certificate_has_no_outcome_to_choose_from():
    assert not any(isinstance(block, Banner) for block in first_text_sheet(sheets_of(complete_certificate())).blocks)
    assert "SATISFACTORY" not in said_on(sheets_of(complete_certificate()))


def test_observations_stand_on_the_report_with_their_codes():
    said = said_on(sheets_of(complete_report(Code.C1, Code.C3)))
    assert "Invented finding, coded C1" in said
    assert "Invented finding, coded C3" in said
    assert "No item was found" in said_on(sheets_of(_issued(complete_report())))


def test_a_draft_report_is_never_called_satisfactory_but_may_be_known_to_be_unsatisfactory():
    assert _banner(complete_report()).says == "NOT DECIDED YET"
    assert _banner(fresh(FormSet.EICR)).tone is Tone.OPEN
    assert _banner(complete_report(Code.C1)).says == "UNSATISFACTORY"
    assert "No item was found" not in said_on(sheets_of(fresh(FormSet.EICR)))


def test_a_reading_that_was_asked_about_is_printed_with_the_reason_given():
    job = entered(complete_certificate(sign=False), {"zs": "0.10"}, board="b1", circuit="c2")
    asked = next(finding for finding in assess(job).findings if finding.severity is Severity.ASK)
    reason = "Measured at the board end, by a parallel path through the boiler"
    explain = Explain.of(asked, reason=reason, by="Ida", on=ON)
    said = said_on(sheets_of(done(job, explain)))
    assert reason in said
    assert asked.says in said
    assert reason not in said_on(sheets_of(entered(done(job, explain), {"zs": "0.49"}, board="b1", circuit="c2")))
