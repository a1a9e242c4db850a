"""Earlier papers that the log knows of are put forward on a report, its last report by number and day."""

from datetime import date

from domain.editing.commands import Enter
from domain.forms.form_set import FormSet
from domain.job.job import Job
from domain.log.last_time.history import Earlier, History
from domain.log.last_time.known_records import known_records
from tests.builders import complete_certificate, complete_report, fresh


def numbered(job: Job, number: str, on: date) -> Earlier:
    return Earlier(job=job.model_copy(update={"number": number}), on=on)


HISTORY = History(
    visits=(
        numbered(complete_certificate(), "A-0004", date(2026, 3, 2)),
        numbered(complete_report(), "A-0001", date(2021, 3, 1)),
    )
)


def texts(entries: tuple[Enter, ...]) -> dict[str, str]:
    return {each.place.box: each.text for each in entries}


def test_a_report_is_told_the_papers_seen_and_the_last_report_among_them() -> None:
    known = known_records(fresh(FormSet.EICR), HISTORY)
    assert known
    assert texts(known.entries) == {
        "records": "A-0004, A-0001",
        "records_held_by": "Harebell Electrical",
        "last_inspection": "1 March 2021",
        "last_report": "A-0001",
    }


def test_a_certificate_asks_for_none_of_it_and_a_new_place_has_none() -> None:
    assert known_records(fresh(FormSet.EIC), HISTORY) is None
    assert known_records(fresh(FormSet.EICR), History()) is None
