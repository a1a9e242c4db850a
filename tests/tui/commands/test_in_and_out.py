"""Many jobs in one file, and readings from a table: in and out of the log from the command line."""

import json
from pathlib import Path

import pytest

from domain.job.job import Job
from domain.job.start import as_draft
from tests.builders import complete_certificate, complete_minor_works, snagged
from tests.tui.commands.command_line import ROOT, empty_log, ohmfolio, sentence_of, written

COLUMNS = "number=Way; r1_r2=R1+R2; zs=Zs"


@pytest.fixture
def home(tmp_path: Path) -> Path:
    return tmp_path / "home"


def test_many_jobs_are_handed_over_in_one_list_and_brought_in_as_they_were(home: Path, tmp_path: Path) -> None:
    jobs = [complete_certificate(), complete_minor_works(), snagged(complete_certificate())]
    listed = tmp_path / "jobs.json"
    listed.write_text(f"[{','.join(job.model_dump_json() for job in jobs)}]")
    brought = ohmfolio("bring-in", listed, "--json", home=home).value
    assert [(line["number"], line["state"]) for line in brought] == [
        ("A-0001", "ready"),
        ("A-0002", "ready"),
        ("A-0003", "draft"),
    ]
    handed = ohmfolio("hand-over", "--all", home=home).value
    assert [as_draft(Job.model_validate(each)) for each in handed] == jobs[::-1]
    file = tmp_path / "snagged.json"
    some = ohmfolio("hand-over", "--find", "snags:open", "--to", file, "--json", home=home)
    assert some.value == {"file": str(file), "jobs": 1}
    assert ohmfolio("bring-in", file, "--json", home=tmp_path / "other").value[0]["open_snags"] == 1
    assert "Name one job" in sentence_of(ohmfolio("hand-over", "A-0001", "--all", home=home))


def test_a_list_with_one_job_that_cannot_be_used_brings_in_none(home: Path, tmp_path: Path) -> None:
    bad = json.loads(complete_minor_works().model_dump_json()) | {"nonsense": 1}
    listed = tmp_path / "jobs.json"
    listed.write_text(json.dumps([json.loads(complete_certificate().model_dump_json()), bad]))
    empty_log(home)
    assert "job 2: there is no field 'nonsense'" in sentence_of(ohmfolio("bring-in", listed, home=home))
    assert ohmfolio("find", "--json", home=home).value == []


def test_documents_written_before_later_boxes_were_there_are_read_as_they_were(home: Path) -> None:
    kept = ROOT / "tests" / "cases" / "documents_of_version_1.json"
    brought = ohmfolio("bring-in", kept, "--json", home=home)
    assert brought.code == 0, brought
    for line, old in zip(brought.value, json.loads(kept.read_text()), strict=True):
        now = ohmfolio("hand-over", line["number"], home=home).value
        assert_holds(now, old | {"number": line["number"], "issued": None, "signatures": now["signatures"]})


def assert_holds(now: object, old: object) -> None:
    """Everything the old document says is said by the new one."""
    if isinstance(old, dict) and isinstance(now, dict):
        for name, value in old.items():
            assert_holds(now[name], value)
    elif isinstance(old, list) and isinstance(now, list):
        assert len(now) == len(old)
        for new_entry, old_entry in zip(now, old, strict=True):
            assert_holds(new_entry, old_entry)
    else:
        assert now == old


def test_readings_of_a_table_are_read_in_by_a_mapping_kept_in_the_log_and_overwrite_nothing_unasked(
    home: Path, tmp_path: Path
) -> None:
    job = tmp_path / "job.json"
    ohmfolio("bring-in", written(complete_certificate(), job), home=home)
    table = tmp_path / "readings.csv"
    table.write_text("Way;R1+R2;Zs\n1;0,31;0.49\n2;;\n")
    asked = ohmfolio("read-in", table, "A-0001", "--columns", COLUMNS, "--save", "ours", "--json", home=home)
    assert (asked.code, asked.value["written"]) == (1, False)
    assert asked.value["readings"] == [{"where": "Circuit 1, R1+R2", "typed": "0,31", "was": "0.28"}]
    assert "No mapping is kept as 'ours'" in sentence_of(
        ohmfolio("read-in", table, "A-0001", "--by", "ours", home=home)
    )
    done = ohmfolio("read-in", table, "A-0001", "--columns", COLUMNS, "--save", "ours", "--replace", home=home)
    assert (done.code, done.out) == (0, "1 reading typed into A-0001\n")
    circuit = ohmfolio("hand-over", "A-0001", home=home).value["boards"][0]["circuits"][0]
    assert (circuit["r1_r2"], circuit["zs"]) == ("0,31", "0.49")
    table.write_text("Way,Zs,R1+R2\n7,0.5,\n")
    told = ohmfolio("read-in", table, "A-0001", "--by", "ours", home=home)
    assert told.code == 1
    assert "✗ Line 2: no circuit of DB1 has number 7" in told.out
