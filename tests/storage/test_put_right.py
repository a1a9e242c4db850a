"""A report is put right paper by paper, in any order, by several firms; in either log."""

from datetime import date, timedelta

import pytest

from domain.editing.commands import Observe, Sign
from domain.forms.choice.answers import Answers
from domain.forms.choice.chosen import SeenElsewhere
from domain.forms.form_set import FormSet
from domain.gate.issued_paper import IssuedPaper
from domain.inspection.observation import Code
from domain.job.start import seen_job
from domain.log.job_log import JobLog, Query
from domain.log.put_right.notes import How, RemedyNote
from domain.log.put_right.remedial_status import Stage
from domain.log.put_right.remedy import remedy_of
from tests.builders import AT, INSPECTOR, complete_certificate, complete_minor_works, complete_report, entered, fresh
from tests.storage.issuing import WHO, bind, issued_in

LATER = AT + timedelta(days=10)
DAY = date(2026, 3, 9)


@pytest.fixture
def report(log: JobLog):
    number = issued_in(log, complete_report(Code.C2, Code.C3, Code.FI, Code.C1)).number
    return log.load(number)


def says(log: JobLog, report, code: Code, how: How, **more) -> str:
    observation = next(each for each in report.observations if each.code is code)
    note = RemedyNote(observation=observation.id, how=how, **more)
    return log.note_remedy(report.number, note, who=WHO, at=LATER)


def issue(log: JobLog, number: str) -> None:
    for role in log.load(number).roles:
        log.edit(number, Sign(role=role, name=INSPECTOR, at=LATER), who=WHO, at=LATER)
    assert isinstance(log.issue(number, by=WHO, at=LATER, bind=bind), IssuedPaper)


def by_other_firm(log: JobLog, report, code: Code) -> str:
    return says(log, report, code, How.PAPER, number="QN-118", firm="Quenby Electrics", on=DAY)


def to_put_right(log: JobLog) -> list[str]:
    return [line.number for line in log.find(Query(to_put_right=True))]


def test_what_made_the_report_unsatisfactory_is_to_be_put_right_and_c3_is_not(log, report):
    items = log.remedial_status(report).items
    assert [item.observation.code for item in items] == [Code.C1, Code.C2, Code.FI]
    assert {item.stage for item in items} == {Stage.OPEN}


def test_certificate_other_firm_and_finding_close_it_in_any_order_and_the_report_stays(log, report):
    remedy = log.create(complete_minor_works(sign=False), who=WHO, at=AT).number
    assert says(log, report, Code.FI, How.NOTHING_WRONG, says="Traced and tested", by=INSPECTOR, on=DAY) == ""
    assert says(log, report, Code.C2, How.CERTIFICATE, number=remedy) == ""
    assert by_other_firm(log, report, Code.C1) == ""
    stages = [item.stage for item in log.remedial_status(report).items]
    assert stages == [Stage.CLOSED, Stage.UNDER_WAY, Stage.CLOSED]
    assert to_put_right(log) == [report.number]
    issue(log, remedy)
    assert log.reports_put_right(remedy) == (report.number,)
    now = log.remedial_status(report)
    assert now.is_done
    assert now.papers == (
        "QN-118 of Quenby Electrics, 9 March 2026",
        f"Minor Electrical Installation Works Certificate {remedy}, 2 March 2026",
        f"finding of {INSPECTOR}, 9 March 2026: nothing wrong",
    )
    assert log.line(report.number).put_right
    assert to_put_right(log) == []
    assert log.load(report.number) == report
    assert "QN-118 of Quenby Electrics" in log.trail(report.number)[-1].what


def test_a_report_seen_elsewhere_is_listed_among_those_of_the_log_until_it_is_put_right(log, report):
    seen = seen_job(SeenElsewhere(firm="Quenby Electrics", number="QE-7"), Answers(), on=DAY, inspected_on="3/2/2026")
    number = log.create(seen, who=WHO, at=LATER).number
    assert to_put_right(log) == [report.number]
    log.edit(number, Observe(finding="No main bonding to the gas", code=Code.C2), who=WHO, at=LATER)
    assert to_put_right(log) == [number, report.number]
    page = log.find(Query(to_put_right=True, limit=1))
    assert [line.number for line in page] == [number]
    assert [line.number for line in log.find(Query(to_put_right=True, limit=1, before=number))] == [report.number]
    assert [line.number for line in log.find(Query(to_put_right=True, hand=WHO))] == [number, report.number]
    assert [line.number for line in log.find(Query(to_put_right=True, words="quenby"))] == [number]
    other = log.create(complete_report(Code.C2, sign=False), who=WHO, at=LATER).number
    assert other not in to_put_right(log)
    assert by_other_firm(log, log.load(number), Code.C2) == ""
    assert to_put_right(log) == [report.number]


def test_the_last_note_of_an_observation_holds_until_all_is_closed(log, report):
    assert by_other_firm(log, report, Code.C1) == ""
    assert says(log, report, Code.C1, How.OPEN) == ""
    assert log.remedial_status(report).items[0].stage is Stage.OPEN
    for code in (Code.C1, Code.C2, Code.FI):
        assert by_other_firm(log, report, code) == ""
    assert log.line(report.number).put_right
    assert "new inspection" in says(log, report, Code.C1, How.OPEN)


@pytest.mark.parametrize(
    ("code", "how", "more", "because"),
    [
        (Code.C2, How.NOTHING_WRONG, {"says": "Looked", "by": INSPECTOR, "on": DAY}, "only FI"),
        (Code.FI, How.NOTHING_WRONG, {"by": INSPECTOR, "on": DAY}, "what was looked into"),
        (Code.FI, How.NOTHING_WRONG, {"says": "Looked", "by": INSPECTOR}, "the day"),
        (Code.C1, How.PAPER, {"firm": "Quenby Electrics", "on": DAY}, "its number"),
        (Code.C1, How.PAPER, {"number": "7", "firm": "Q", "on": date(2026, 3, 1)}, "before the day of the report"),
        (Code.C1, How.PAPER, {"number": "7", "firm": "Q", "on": date(2027, 3, 1)}, "not come yet"),
        (Code.C1, How.CERTIFICATE, {"number": "A-0099"}, "no job"),
        (Code.C1, How.CERTIFICATE, {"number": "A-0001"}, "is a report"),
    ],
)
def test_what_proves_nothing_closes_nothing(log, report, code, how, more, because):
    assert because in says(log, report, code, how, **more)
    assert {item.stage for item in log.remedial_status(report).items} == {Stage.OPEN}


def test_a_certificate_older_than_the_report_does_not_put_it_right(log, report):
    older = entered(complete_certificate(sign=False), {"completed_on": "01/03/2026"}, section="work")
    older = entered(older, {"tested_on": "01/03/2026"}, board="b1")
    number = log.create(older, who=WHO, at=AT).number
    issue(log, number)
    assert "before the report" in says(log, report, Code.C1, How.CERTIFICATE, number=number)


def test_a_satisfactory_report_and_a_draft_have_nothing_to_put_right(log):
    good = log.load(issued_in(log, complete_report(Code.C3)).number)
    assert "nothing to put right" in log.note_remedy(
        good.number, RemedyNote(observation="o1", how=How.OPEN), who=WHO, at=LATER
    )


def test_the_job_that_puts_right_knows_the_place_and_what_to_do_and_holds_no_reading(log, report):
    job = remedy_of(fresh(FormSet.MEIWC), report, [report.observations[0]])
    assert (job.client, job.premises.postcode) == (report.client, "WQ7 1AB")
    assert job.supply.system == "TN-C-S"
    assert f"report {report.number}" in job.work.description
    assert "Observation 1 (C2), Hall: Invented finding, coded C2" in job.work.description
    assert job.supply.ze.typed == ""
    assert job.work.completed_on == ""
