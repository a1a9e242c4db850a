"""`due`: what is due over the log."""

import csv
import io
from pathlib import Path

import pytest
from icalendar import Calendar

from domain.editing.commands import Choose
from domain.forms.choice.answers import Answers
from tests.builders import complete_report, done, signed
from tests.tui.commands.command_line import empty_log, ohmfolio, sentence_of, written

LET = Answers.model_validate({"done": "inspection", "nation": "England", "tenure": "private-let"})


@pytest.fixture
def home(tmp_path: Path) -> Path:
    report = complete_report()
    job = signed(done(report, Choose(chosen=report.chosen.model_copy(update={"answers": LET}))))
    home = tmp_path / "home"
    assert ohmfolio("bring-in", written(job, tmp_path / "job.json"), home=home).code == 0
    return home


def test_what_is_due_is_listed_soonest_first_with_its_rule(home: Path) -> None:
    said = ohmfolio("due", "--json", "--on", "2026-04-02", home=home)
    assert said.code == 0
    copy, remedy = (
        next(each for each in said.value if each["id"] == f"england, {name}")
        for name in ("copy to tenants", "remedial work")
    )
    assert copy["number"] == "A-0001"
    assert (copy["by"], copy["overdue"], copy["days_left"]) == ("2026-03-30", True, -3)
    assert "28 days of the day of the inspection" in copy["counted"]
    assert "Private Rented Sector" in copy["source"]
    assert (remedy["by"], remedy["other_reading"]) == ("2026-03-29", "2026-03-30")
    assert [each["by"] for each in said.value] == sorted(each["by"] for each in said.value)


def test_a_day_ends_the_list(home: Path) -> None:
    until = ohmfolio("due", "--json", "--on", "02/03/2026", "--until", "29/03/2026", home=home)
    assert [each["id"] for each in until.value] == ["england, remedial work"]
    assert not until.value[0]["overdue"]


def test_people_read_how_many_days_are_left(home: Path) -> None:
    text = ohmfolio("due", "--on", "2026-03-28", home=home).out
    assert "29 March 2026, in 1 day  A-0001" in text
    assert "counted otherwise, 30 March 2026" in text


def test_nothing_is_due_on_an_empty_log(tmp_path: Path) -> None:
    home = empty_log(tmp_path / "home")
    assert ohmfolio("due", "--json", home=home).value == []
    assert "Nothing is due" in ohmfolio("due", home=home).out


def test_a_day_that_is_none_is_refused(tmp_path: Path) -> None:
    assert "takes a date" in sentence_of(ohmfolio("due", "--on", "soon", home=tmp_path))


def test_the_list_is_written_as_a_table_and_as_a_calendar_that_other_programs_read(home: Path, tmp_path: Path) -> None:
    """The calendar is read by the icalendar library as RFC 5545 has it; the table by the csv module, as RFC 4180 has it."""
    table, calendar = tmp_path / "due.csv", tmp_path / "due.ics"
    said = ohmfolio("due", "--json", "--on", "2026-04-02", "--csv", table, "--ics", calendar, home=home)
    rows = list(csv.DictReader(io.StringIO(table.read_text(encoding="utf-8-sig"))))
    assert [row["By"] for row in rows] == [each["by"] for each in said.value]
    assert {row["Number"] for row in rows} == {"A-0001"}
    events = Calendar.from_ical(calendar.read_bytes()).walk("VEVENT")
    assert sorted(event["dtstart"].dt.isoformat() for event in events) == [each["by"] for each in said.value]
    assert len({event["uid"] for event in events}) == len(events)
    assert all(str(event["summary"]).startswith("A-0001 Zoë Fairweather: ") for event in events)
    assert "exists already" in sentence_of(ohmfolio("due", "--csv", table, home=home))
