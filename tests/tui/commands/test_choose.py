"""`choose`, `schema`, `help` and the version: answers that need no log."""

import json
from pathlib import Path

import pytest

from domain.job.job import Job
from domain.job.schema_version import SCHEMA_VERSION
from tests.builders import complete_certificate
from tests.tui.commands.command_line import ohmfolio, sentence_of
from tui.version import VERSION


def answers(given: dict[str, object], folder: Path) -> Path:
    file = folder / "answers.json"
    file.write_text(json.dumps(given), encoding="utf-8")
    return file


def test_one_altered_circuit_is_minor_works_with_reasons_either_way(tmp_path: Path) -> None:
    file = answers({"done": "alteration", "own_work": True, "circuits": 1, "earthing": "present"}, tmp_path)
    said = ohmfolio("choose", file, "--json", home=tmp_path / "home")
    assert said.code == 0
    assert said.value["form_set"] == "MEIWC"
    assert said.value["why"]
    assert said.value["why_not"].keys() == {"EIC", "EICR"}
    assert said.value["ask"] is None
    assert "BS 7671" in said.value["source"]
    assert "Minor Electrical Installation Works Certificate" in ohmfolio("choose", file, home=tmp_path).out
    assert not (tmp_path / "home").exists()


def test_where_an_answer_is_missing_the_next_question_is_handed_back(tmp_path: Path) -> None:
    said = ohmfolio("choose", answers({"done": "alteration", "own_work": True}, tmp_path), "--json", home=tmp_path)
    assert said.code == 0
    assert said.value["form_set"] is None
    assert said.value["ask"]["id"] == "circuits"
    assert [answer["value"] for answer in said.value["ask"]["answers"]] == [1, 2, 0, "unknown"]


def test_with_only_the_earthing_open_it_is_said_where_each_answer_leads(tmp_path: Path) -> None:
    file = answers({"done": "alteration", "own_work": True, "circuits": 1}, tmp_path)
    said = ohmfolio("choose", file, "--json", home=tmp_path)
    assert (said.value["form_set"], said.value["decided"], said.value["ask"]["id"]) == (None, False, "earthing")
    led = {each["value"]: each for each in said.value["if_answered"]}
    assert [*led] == [answer["value"] for answer in said.value["ask"]["answers"]]
    assert (led["present"]["decided"], led["present"]["form_set"]) == (True, "MEIWC")
    assert led["present"]["why"]
    for value, each in led.items():
        told = {"done": "alteration", "own_work": True, "circuits": 1, "earthing": value}
        then = ohmfolio("choose", answers(told, tmp_path), "--json", home=tmp_path).value
        assert (each["form_set"], each["decided"], then["if_answered"]) == (then["form_set"], then["decided"], [])
    assert "Minor Electrical Installation Works Certificate" in ohmfolio("choose", file, home=tmp_path).out


def test_the_questions_are_listed_with_what_may_be_answered(tmp_path: Path) -> None:
    said = ohmfolio("choose", "--questions", "--json", home=tmp_path)
    assert [question["id"] for question in said.value][:7] == [
        *("done", "replaced", "other", "mains", "own_work", "put_right", "circuits"),
    ]
    assert said.value[4]["answers"][0]["value"] is True


@pytest.mark.parametrize(
    ("given", "told"),
    [
        ({"done": "alter"}, 'done takes "new-circuit" or "board"'),
        ({"own_work": "yes"}, 'own_work takes true or false or "part"'),
        ({"completed_on": "31/02/2026"}, "completed_on takes a date"),
        ({"nations": "England"}, "'nation' is"),
        ({"circuits": 10**4200}, "circuits takes a whole number"),
        ({"done": "new-circuit " * 1_000}, 'not "new-circuit new'),
        ({"done": ["new-circuit"] * 1_000}, "done takes"),
        ({"\x1b]0;owned\x07": 1}, "no question is called"),
    ],
)
def test_an_answer_that_cannot_be_used_is_told_with_what_can_be(
    given: dict[str, object], told: str, tmp_path: Path
) -> None:
    assert told in sentence_of(ohmfolio("choose", answers(given, tmp_path), home=tmp_path))


def test_answers_are_read_apart_so_that_what_takes_too_much_is_refused_in_one_sentence(tmp_path: Path) -> None:
    deep = tmp_path / "deep.json"
    deep.write_bytes(b'{"done":' + b"[" * 1_900_000 + b"]" * 1_900_000 + b"}")
    assert "holds no answers that can be used" in sentence_of(ohmfolio("choose", str(deep), home=tmp_path))
    deep.write_bytes(b" " * 5_000_000)
    assert "holds no answers that can be used" in sentence_of(ohmfolio("choose", str(deep), home=tmp_path))


def test_guidance_on_codes_is_told_with_its_source_and_what_a_code_does_to_the_report(tmp_path: Path) -> None:
    said = ohmfolio("codes", "borrowed", "neutral", "--json", home=tmp_path).value
    assert said["guidance"][0]["commonly"] == ["C2"]
    assert said["guidance"][0]["source"]
    assert said["unsatisfactory"] == ["C1", "C2"]
    assert said["fi_alone"]


def test_the_schema_describes_a_job_and_its_boxes(tmp_path: Path) -> None:
    schema = ohmfolio("schema", home=tmp_path / "home").value
    assert set(schema["properties"]) == set(Job.model_fields) >= set(complete_certificate().model_dump())
    assert schema["$defs"]["Supply"]["properties"]["ze"]["title"] == "External loop impedance Ze (Ω)"
    assert schema["additionalProperties"] is False


def test_help_lists_the_commands_and_explains_each(tmp_path: Path) -> None:
    listed = ohmfolio("--help", home=tmp_path)
    assert listed.code == 0
    for command in ("demo", "choose", "check", "issue", "find", "bring-in", "hand-over", "schema"):
        assert f"\n  {command} " in listed.out


@pytest.mark.parametrize("typed", [("help", "issue"), ("issue", "--help"), ("issue", "7", "-h")])
def test_a_command_explains_itself(typed: tuple[str, ...], tmp_path: Path) -> None:
    told = ohmfolio(*typed, home=tmp_path)
    assert told.code == 0
    assert told.out.startswith("usage: ohmfolio issue JOB.json|NUMBER [--to FOLDER]")
    assert "Exit 1: held back" in told.out


def test_the_version_is_said(tmp_path: Path) -> None:
    said = ohmfolio("--version", home=tmp_path).out
    assert said.startswith(f"ohmfolio {VERSION}\n")
    assert "\ntables of BS 7671:2018+A2:2022\n" in said
    assert "\ntaken over by an earlier edition of BS 7671, " in said
    assert said.endswith(f"schema version {SCHEMA_VERSION}\n")
