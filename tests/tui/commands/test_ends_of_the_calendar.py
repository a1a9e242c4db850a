"""Dates, numbers and names at their ends: one sentence or an answer, never a traceback, and nothing written."""

import json
from pathlib import Path

import pytest

from tests.builders import complete_minor_works
from tests.tui.commands.command_line import empty_log, ohmfolio, sentence_of
from tui.commands.command import NO

MOMENTS = ("9999-12-31T23:59:59.999999-14:00", "0001-01-01T00:00:00+14:00", "9999-12-31T23:59:59Z")


@pytest.mark.parametrize("moment", MOMENTS)
def test_a_signature_at_the_end_of_the_calendar_is_refused(moment: str, tmp_path: Path) -> None:
    job = json.loads(complete_minor_works().model_dump_json())
    job["signatures"][0]["at"] = moment
    (tmp_path / "job.json").write_text(json.dumps(job), encoding="utf-8")
    for typed in (("check",), ("bring-in",), ("issue", "--to", tmp_path)):
        said = ohmfolio(typed[0], tmp_path / "job.json", *typed[1:], home=tmp_path / "home")
        assert "between the years" in sentence_of(said)
    assert not (tmp_path / "home" / "ohmfolio.db").exists()


@pytest.mark.parametrize("number", ["../../x", "A-1", "a-0001", "A-0001/..", "A-00011234567890"])
def test_what_is_no_number_of_a_job_is_refused_wherever_it_comes_in(number: str, tmp_path: Path) -> None:
    job = complete_minor_works().model_copy(update={"number": number})
    (tmp_path / "job.json").write_text(job.model_dump_json(), encoding="utf-8")
    for command in ("check", "bring-in"):
        said = ohmfolio(command, tmp_path / "job.json", home=tmp_path / "home")
        assert "no number of a job" in sentence_of(said)
    assert ohmfolio("hand-over", number, home=empty_log(tmp_path / "home")).code == NO


@pytest.mark.parametrize("day", ["0001-01-01", "9999-12-31"])
def test_a_log_is_looked_at_since_either_end_of_the_calendar(day: str, tmp_path: Path) -> None:
    assert "jobs touched since" in ohmfolio("tend", "--since", day, home=empty_log(tmp_path / "home")).out


def test_an_issue_from_a_file_that_cannot_be_handed_out_leaves_no_draft(tmp_path: Path) -> None:
    (tmp_path / "job.json").write_text(complete_minor_works().model_dump_json(), encoding="utf-8")
    (tmp_path / "A-0001-MEIWC").mkdir()
    said = ohmfolio("issue", tmp_path / "job.json", "--to", tmp_path, home=tmp_path / "home")
    assert "exists already" in sentence_of(said)
    assert ohmfolio("find", "--json", home=tmp_path / "home").value == []
