"""Input that cannot be used: one plain sentence, and nothing written."""

import json
import os
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.builders import complete_certificate
from tests.tui.commands.command_line import Said, ohmfolio, sentence_of, written


def job_with(**changed: Any) -> str:
    return json.dumps(complete_certificate().model_dump(mode="json") | changed)


def signed_at(moment: str | float) -> dict[str, object]:
    return complete_certificate().model_dump(mode="json")["signatures"][0] | {"at": moment}


def made(text: str) -> Callable[[Path], None]:
    return lambda path: path.write_text(text, encoding="utf-8") and None


BAD_JOBS: dict[str, Callable[[Path], object]] = {
    "no file at all": lambda path: None,
    "a folder": Path.mkdir,
    "an empty file": made(""),
    "not JSON": made("Board 1: all fine"),
    "half of a document": made(job_with()[:900]),
    "a list": made("[]"),
    "a number": made("7"),
    "not text": lambda path: path.write_bytes(b"\xff\xfe\x00{"),
    "another schema version": made(job_with(schema_version=2)),
    "an unknown field": made(job_with(colour="red")),
    "an unknown field named by escape codes": made(job_with(**{"\x1b]0;mine\x07": 1})),
    "an outcome typed in": made(job_with(outcome="satisfactory")),
    "a megabyte of text": made(job_with(client={"name": "x" * 1_000_000})),
    "a field name of a megabyte": made(job_with(**{"x" * 1_000_000: 1})),
    "terminal escape codes": made(job_with(client={"name": "\x1b[2J\x1b[31mred"})),
    "brackets without an end": made("[" * 200_000),
    "a figure beyond all figures": made('{"next_id": 1' + "0" * 5000 + "}"),
    "not a number": made('{"next_id": NaN}'),
    "a number below all ids": made(job_with(next_id=-1)),
    "a number beyond all ids": made(job_with(next_id=10**4000)),
    "a number in quotes": made(job_with(next_id="5")),
    "a moment of no time zone": made(job_with(signatures=[signed_at("2026-03-02T11:00:00")])),
    "a moment at the end of the calendar": made(job_with(signatures=[signed_at("9999-12-31T23:59:59-12:00")])),
    "a part signed for twice": made(job_with(signatures=[signed_at("2026-03-02T11:00:00Z")] * 2)),
    "more fields than any part has": made(job_with(client={f"k{at}": 1 for at in range(20_001)})),
    "more entries than any part has": made(job_with(snags=[{}] * 20_001)),
    "lists in lists by the million": made(job_with(snags=[[]] * 900_000)),
    "half of a letter of two": made(job_with(client={"name": "\ud800"})),
    "a moment of a million figures": made(job_with(signatures=[signed_at("2026-03-02T11:00:00." + "1" * 1_000_000)])),
    "a moment beyond all moments": made(job_with(signatures=[signed_at(1e300)])),
    "larger than any job": made(" " * 4_000_001),
}


EVERY_BAD_JOB_BROUGHT_IN = [("bring-in", bad) for bad in BAD_JOBS]
SOME_CHECKED_AND_ISSUED = [
    (command, bad) for command in ("check", "issue") for bad in ("no file at all", "not JSON", "an unknown field")
]


@pytest.mark.parametrize(("command", "bad"), [*EVERY_BAD_JOB_BROUGHT_IN, *SOME_CHECKED_AND_ISSUED])
def test_a_file_that_holds_no_job_is_refused_in_one_sentence(command: str, bad: str, tmp_path: Path) -> None:
    file, home, folder = tmp_path / "job.json", tmp_path / "home", tmp_path / "out"
    folder.mkdir()
    BAD_JOBS[bad](file)
    said = ohmfolio(command, file, *(["--to", folder] if command == "issue" else []), "--json", home=home)
    assert "job.json" in sentence_of(said)
    assert not home.exists()
    assert list(folder.iterdir()) == []


@pytest.mark.parametrize(
    "answers",
    ["", "{", "[]", '{"done": "nothing"}', '{"colour": "red"}', '{"circuits": -1}', '{"circuits": "1"}', "[" * 100_000],
)
def test_answers_that_mean_nothing_are_refused_in_one_sentence(answers: str, tmp_path: Path) -> None:
    file, home = tmp_path / "answers.json", tmp_path / "home"
    file.write_text(answers, encoding="utf-8")
    assert "answers.json" in sentence_of(ohmfolio("choose", file, "--json", home=home))
    assert not home.exists()


def test_a_file_name_with_escape_codes_is_shown_and_not_obeyed(tmp_path: Path) -> None:
    said = ohmfolio("check", tmp_path / "\x1b[31mjob\n.json", home=tmp_path / "home")
    assert "\\x1b[31mjob\\x0a.json" in sentence_of(said)


def test_a_file_name_that_is_no_text_is_still_named(tmp_path: Path) -> None:
    said = ohmfolio("check", os.fsdecode(b"/nowhere/\xff.json"), home=tmp_path / "home")
    assert "\\udcff.json" in said.error
    assert said.code == 2


@pytest.mark.skipif(os.geteuid() == 0, reason="nothing is closed to the superuser")
def test_a_file_that_may_not_be_read_is_said(tmp_path: Path) -> None:
    file = written(complete_certificate(), tmp_path / "job.json")
    file.chmod(0)
    assert "cannot be read" in sentence_of(ohmfolio("check", file, home=tmp_path / "home"))


@pytest.mark.parametrize(
    "typed",
    [
        ("certify",),
        ("check",),
        ("check", "1", "2"),
        ("check", "job.json", "--force"),
        ("choose",),
        ("issue", "7"),
        ("issue", "7", "--to"),
        ("issue", "7", "--to", "/nowhere/pack"),
        ("issue", "7", "--to", __file__),
        ("find", "--form", "PIR"),
        ("find", "--state", "lost"),
        ("find", "--limit", "none"),
        ("issue", "7", "--to", ".", "--by", "\x1b[31mme"),
        ("demo",),
        ("hand-over",),
        ("help", "certify"),
        ("\x1b[2J",),
        (),
    ],
    ids=lambda typed: " ".join(typed[:3]) or "nothing, without a terminal",
)
def test_what_cannot_be_meant_is_said_in_one_sentence(typed: tuple[str, ...], tmp_path: Path) -> None:
    home = tmp_path / "home"
    sentence_of(ohmfolio(*typed, home=home))
    assert not home.exists()


AWKWARD = {
    "markup": "[bold red]Thistle[/] [@click=app.quit]& Sons[/]",
    "markdown": "# Thistle | **& Sons** <b>x</b> `y` | z",
    "path": "../../etc/passwd",
    "percent": "%s {0} $HOME $(id)",
    "quotes": "O'Hara \" OR 1=1; DROP TABLE job; --",
    "letters": "Zoë Łukasiewicz 電工 עברית",
}


@pytest.mark.parametrize("name", AWKWARD.values(), ids=AWKWARD)
def test_awkward_text_is_kept_shown_and_found_as_plain_text(name: str, tmp_path: Path) -> None:
    home, file = tmp_path / "home", tmp_path / "job.json"
    file.write_text(job_with(client={"name": name, "address": name}), encoding="utf-8")
    number = _fine(ohmfolio("bring-in", file, "--json", home=home)).value["number"]
    word = max(re.findall(r"\w+", name), key=len)
    assert [line["client"] for line in _fine(ohmfolio("find", word, "--json", home=home)).value] == [name]
    assert name in _fine(ohmfolio("find", word, home=home)).out
    assert _fine(ohmfolio("hand-over", number, "--json", home=home)).value["client"]["name"] == name
    assert {path.name for path in tmp_path.iterdir()} == {"home", "job.json"}


def _fine(said: Said) -> Said:
    assert said.code == 0, said
    return said
