"""`bring-in`, `find`, `hand-over` and `issue`: the log from the command line."""

import hashlib
import os
from pathlib import Path

import pymupdf
import pytest

from domain.inspection.observation import Code
from domain.job.job import Job
from domain.job.start import as_draft
from domain.register.entries import Person
from storage.sqlite_job_log import SqliteJobLog
from tests.builders import AT, INSPECTOR, complete_certificate, complete_minor_works, complete_report, snagged
from tests.tui.commands.command_line import empty_log, ohmfolio, sentence_of, written


@pytest.fixture
def home(tmp_path: Path) -> Path:
    return tmp_path / "home"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    out = tmp_path / "out"
    out.mkdir()
    return out


def brought_in(job: Job, home: Path, tmp_path: Path) -> str:
    said = ohmfolio("bring-in", written(job, tmp_path / "job.json"), "--json", home=home)
    assert said.code == 0, said
    return said.value["number"]


def test_a_job_brought_in_is_found_and_handed_over_unchanged(home: Path, tmp_path: Path) -> None:
    job = complete_certificate()
    number = brought_in(job, home, tmp_path)
    lines = ohmfolio("find", "fairweather", "--json", home=home).value
    assert [(line["number"], line["state"], line["form_set"]) for line in lines] == [(number, "ready", "EIC")]
    assert lines[0].keys() == {
        "number",
        "client",
        "premises",
        "form_set",
        "state",
        "outcome",
        "open_snags",
        "updated",
        "day",
        "due",
    }
    handed = ohmfolio("hand-over", number, home=home)
    assert as_draft(Job.model_validate_json(handed.out)) == job


def test_a_job_is_handed_over_into_a_new_file_and_never_over_an_old_one(home: Path, tmp_path: Path) -> None:
    number = brought_in(complete_certificate(), home, tmp_path)
    file = tmp_path / "handed.json"
    assert ohmfolio("hand-over", number, "--to", file, "--json", home=home).value == {"file": str(file)}
    before = file.read_bytes()
    assert as_draft(Job.model_validate_json(before)) == complete_certificate()
    sentence_of(ohmfolio("hand-over", number, "--to", file, home=home))
    assert file.read_bytes() == before


def test_the_log_is_searched_by_form_state_outcome_and_snags(home: Path, tmp_path: Path) -> None:
    numbers = {
        name: brought_in(job, home, tmp_path)
        for name, job in {
            "snagged": snagged(complete_certificate()),
            "ready": complete_minor_works(),
            "report": complete_report(Code.C2),
        }.items()
    }
    for typed, name in (
        (("--snags",), "snagged"),
        (("--form", "meiwc"), "ready"),
        (("--outcome", "unsatisfactory"), "report"),
        (("--state", "draft"), "snagged"),
        (("--number", numbers["report"]), "report"),
    ):
        found = ohmfolio("find", *typed, "--json", home=home).value
        assert [line["number"] for line in found] == [numbers[name]], typed


def test_an_empty_log_lists_nothing_and_a_vain_search_says_no(home: Path) -> None:
    listed = ohmfolio("find", "--json", home=empty_log(home))
    assert (listed.code, listed.value) == (0, [])
    sought = ohmfolio("find", "nobody", "--json", home=home)
    assert (sought.code, sought.value) == (1, [])


@pytest.mark.parametrize("typed", [("check", "999"), ("hand-over", "999"), ("issue", "999", "--to", ".")])
def test_a_number_the_log_does_not_have_is_not_found(typed: tuple[str, ...], home: Path) -> None:
    said = ohmfolio(*typed, "--json", home=empty_log(home))
    assert said.code == 1
    assert said.value == {"number": "999", "found": False}


def test_an_issued_job_puts_its_pack_into_the_folder(home: Path, folder: Path, tmp_path: Path) -> None:
    number = brought_in(complete_minor_works(), home, tmp_path)
    said = ohmfolio("issue", number, "--to", folder, "--by", "Tamsin Orchard", "--json", home=home)
    assert said.code == 0, said
    file = folder / f"{number}-MEIWC" / f"{number}-MEIWC.pdf"
    assert said.value == {
        "file": str(file),
        "sha256": hashlib.sha256(file.read_bytes()).hexdigest(),
        "pages": len(pymupdf.open(file)),
        "also": [str(file.with_suffix(".html"))],
    }
    assert sorted(folder.rglob("*.*")) == [file.with_suffix(".html"), file]
    assert ohmfolio("find", "--state", "issued", "--json", home=home).value[0]["outcome"] == "complies"
    again = ohmfolio("issue", number, "--to", tmp_path, "--json", home=home)
    assert again.code == 1
    assert again.value["may_issue"] is False


def test_check_and_issue_name_a_signature_that_the_register_of_people_does_not_allow(
    home: Path, folder: Path, tmp_path: Path
) -> None:
    number, file = brought_in(complete_minor_works(), home, tmp_path), tmp_path / "job.json"
    log = SqliteJobLog.open(home)
    log.register(Person(name=INSPECTOR), who=INSPECTOR, at=AT)
    log.close()
    for typed in (("check", number), ("issue", number, "--to", folder), ("issue", file, "--to", folder)):
        said = ohmfolio(*typed, "--json", home=home)
        assert (said.code, said.value["may_issue"]) == (1, False)
        (reason,) = said.value["reasons"]
        assert reason["kind"] == "may not sign"
        assert reason["place"] == "Signatures, design, construction, inspection and testing"
        assert "Tamsin Orchard is in training" in reason["says"]
    assert "may not sign: Signed for design" in ohmfolio("check", number, home=home).out
    assert [line["number"] for line in ohmfolio("find", "--json", home=home).value] == [number], (
        "the file stays outside"
    )


def test_a_job_from_a_file_is_issued_in_one_go(home: Path, folder: Path, tmp_path: Path) -> None:
    file = written(complete_report(Code.C2), tmp_path / "job.json")
    said = ohmfolio("issue", file, "--to", folder, "--json", home=home)
    assert said.code == 0, said
    assert Path(said.value["file"]).name.endswith("-EICR.pdf")
    assert [Path(each).name for each in said.value["also"]] == ["A-0001-EICR.html", "A-0001-EICR-schedules.csv"]
    assert all(Path(each).is_file() for each in said.value["also"])
    (line,) = ohmfolio("find", "--json", home=home).value
    assert (line["state"], line["outcome"]) == ("issued", "unsatisfactory")


def test_a_job_from_a_file_that_is_held_back_leaves_nothing_behind(home: Path, folder: Path, tmp_path: Path) -> None:
    said = ohmfolio(
        "issue", written(snagged(complete_certificate()), tmp_path / "job.json"), "--to", folder, "--json", home=home
    )
    assert said.code == 1
    assert said.value["may_issue"] is False
    assert {
        "kind": "open snag",
        "id": "snag",
        "place": "snag 1",
        "says": "Snag 1 is open: Grommet missing at the board",
    } in said.value["reasons"]
    assert list(folder.iterdir()) == []
    assert ohmfolio("find", "--json", home=home).value == []


def test_a_pack_is_never_written_over_a_file(home: Path, folder: Path, tmp_path: Path) -> None:
    number = brought_in(complete_minor_works(), home, tmp_path)
    there = folder / f"{number}-MEIWC"
    there.write_text("somebody's own")
    assert "exists already" in sentence_of(ohmfolio("issue", number, "--to", folder, home=home))
    assert there.read_text() == "somebody's own"
    assert ohmfolio("find", "--state", "issued", "--json", home=home).value == []


@pytest.mark.skipif(os.geteuid() == 0, reason="nothing is closed to the superuser")
def test_a_folder_that_may_not_be_written_to_is_refused_before_anything_is_issued(
    home: Path, folder: Path, tmp_path: Path
) -> None:
    number = brought_in(complete_minor_works(), home, tmp_path)
    folder.chmod(0o500)
    assert "cannot be written" in sentence_of(ohmfolio("issue", number, "--to", folder, home=home))
    assert ohmfolio("find", "--state", "issued", "--json", home=home).value == []


def test_a_word_with_one_letter_wrong_finds_what_was_meant_and_the_answer_says_so(home: Path, tmp_path: Path) -> None:
    number = brought_in(complete_certificate(), home, tmp_path)
    told = ohmfolio("find", "fairwaether", home=home)
    assert told.code == 0
    assert "Nothing holds that as typed; shown is what holds: fairweather" in told.out
    lines = ohmfolio("find", "fairwaether", "--json", home=home).value
    assert [(line["number"], line["meant"]) for line in lines] == [(number, "fairweather")]


def test_each_filter_and_list_finds_what_it_names_and_pages_follow_one_another(home: Path, tmp_path: Path) -> None:
    numbers = [brought_in(job, home, tmp_path) for job in (complete_minor_works(), snagged(complete_certificate()))]
    for typed, expected in (
        (("--engineer", "orchard", "--postcode", "WQ7", "--year", "2026", "--limit", "1"), numbers[1:]),
        (("engineer:orchard", "postcode:wq7", "year:2026"), numbers[::-1]),
        (("--after", numbers[1]), numbers[:1]),
        (("--list", "snagged"), numbers[1:]),
        (("--list", "ready"), numbers[:1]),
    ):
        assert [line["number"] for line in ohmfolio("find", *typed, "--json", home=home).value] == expected, typed
    for typed in (("--year", "26"), ("--due", "soon"), ("--list", "mine")):
        assert typed[0] in sentence_of(ohmfolio("find", *typed, home=home))
    assert ohmfolio("find", "--due", "2026-01-01", home=home).code == 1


def test_a_correction_needs_a_reason_and_leaves_both_documents(home: Path, folder: Path, tmp_path: Path) -> None:
    number = brought_in(complete_minor_works(), home, tmp_path)
    early = ohmfolio("replace", number, "--because", "the wrong house", "--json", home=home)
    assert (early.code, early.value["number"]) == (1, None)
    assert ohmfolio("issue", number, "--to", folder, home=home).code == 0
    assert "needs a reason" in sentence_of(ohmfolio("replace", number, home=home))
    assert "needs a reason" in sentence_of(ohmfolio("replace", number, "--because", "  ", home=home))
    begun = ohmfolio("replace", number, "--because", "the wrong house", "--json", home=home)
    assert begun.value == {"number": "A-0002", "replaces": number, "because": "the wrong house"}
    assert [line["state"] for line in ohmfolio("find", "--json", home=home).value] == ["draft", "issued"]
    twice = ohmfolio("replace", number, "--because", "the wrong house", home=home)
    assert twice.code == 1
    assert "A-0002" in twice.out


@pytest.mark.parametrize(
    "typed",
    [
        ("find", "kitchen"),
        ("due",),
        ("check", "A-0001"),
        ("hand-over", "--all"),
        ("chart", "A-0001"),
        ("visit-sheet", "A-0001", "--out", "sheet.pdf"),
        ("replace", "A-0001", "--because", "A wrong name"),
        ("practice", "--json"),
        ("head",),
        ("keys",),
        ("numbers",),
        ("settle",),
    ],
    ids=lambda typed: typed[0],
)
def test_a_mistyped_place_is_told_and_no_log_begins_there(typed: tuple[str, ...], home: Path) -> None:
    assert f"There is no job log in {home}" in sentence_of(ohmfolio(*typed, home=home))
    assert not home.exists()
