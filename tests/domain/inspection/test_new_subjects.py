"""What an edition has new: rows are offered where the installation has it, and the paper says that they are our own."""

import pytest

from domain.checks import findings_of
from domain.checks.whole_paper.new_in_edition import offered_items, subjects_of
from domain.editing.commands import AddItem
from domain.edition import Edition
from domain.inspection.new_subject import new_subjects
from domain.job.finding import Severity
from domain.job.job import Job
from domain.sheets.facts import Facts
from domain.sheets.guidance import guidance_for
from domain.sheets.inspection import inspection_schedule
from tests.builders import complete_certificate, complete_minor_works, complete_report, done, enter
from tests.domain.sheets.readers import said_on

BATTERY = "Battery storage of 10 kWh in the garage"


def under(edition: Edition, job: Job, *, use: str = "Dwelling", sources: str = "None") -> Job:
    typed = done(job, enter("premises", "use", use), enter("supply", "other_sources", sources))
    return typed.model_copy(update={"edition": edition})


# Source: open announcements of BS 7671:2018+A4:2026 name the four subjects (Chapter 57; functional earthing of ICT; Power
# over Ethernet; Section 710 revised); nobody here has read them.
@pytest.mark.parametrize(
    ("use", "sources", "about"),
    [
        ("Dwelling", BATTERY, "stationary batteries"),
        ("Office with a server room", "None", "functional earthing of information equipment"),
        ("Office, PoE lighting", "None", "Power over Ethernet"),
        ("Dental surgery", "None", "medical locations"),
    ],
)
def test_each_new_subject_is_offered_where_the_installation_has_it(use: str, sources: str, about: str) -> None:
    job = under(Edition.A4, complete_report(), use=use, sources=sources)
    assert [each.about for each in subjects_of(job)] == [about]
    notes = [each for each in findings_of(job) if each.check == "new-in-edition"]
    assert [(each.severity, about in each.says) for each in notes] == [(Severity.NOTE, True)]


def test_nothing_is_offered_under_an_older_edition_or_where_there_is_none_of_it() -> None:
    assert new_subjects(Edition.A3) == ()
    assert offered_items(under(Edition.A2, complete_report(), sources=BATTERY)) == ()
    assert offered_items(under(Edition.A4, complete_report(), sources="Emergency lighting battery")) == ()
    assert offered_items(under(Edition.A4, complete_report())) == ()
    assert offered_items(complete_minor_works().model_copy(update={"edition": Edition.A4})) == ()


def test_rows_once_added_are_offered_no_more_and_the_paper_says_whose_they_are() -> None:
    for made in (complete_report(), complete_certificate()):
        job = under(Edition.A4, made, sources=BATTERY)
        rows = offered_items(job)
        assert len(rows) == 3
        assert "worded here" not in said_on((inspection_schedule(Facts(job)),))
        job = done(job, *(AddItem(title=row.title, regulations=row.regulations) for row in rows))
        assert offered_items(job) == ()
        assert not [each for each in findings_of(job) if each.check == "new-in-edition"]
        said = said_on((inspection_schedule(Facts(job)),))
        assert "Rows on stationary batteries are worded here" in said


@pytest.mark.parametrize("edition", [Edition.A2, Edition.A3, Edition.A4])
def test_the_paper_says_that_list_and_guidance_were_not_re_checked_where_that_is_so(edition: Edition) -> None:
    job = under(edition, complete_report())
    for sheet in (inspection_schedule(Facts(job)), guidance_for(Facts(job))):
        assert ("not re-checked" in said_on((sheet,))) is (edition is Edition.A4)


def test_a_medical_location_says_on_its_paper_why_no_page_has_its_bonding_readings() -> None:
    job = under(Edition.A4, complete_certificate(), use="Dental surgery")
    job = done(job, *(AddItem(title=row.title, regulations=row.regulations) for row in offered_items(job)))
    said = said_on((inspection_schedule(Facts(job)),))
    assert "have no page for the readings of supplementary bonding" in said
    assert "at most 0.7 Ω in group 1 and 0.2 Ω in group 2" in said
