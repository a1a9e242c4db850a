"""An office and a laptop by their commands, with a stick between them."""

import os
import re
import shlex
import subprocess
import sys
from pathlib import Path
from typing import NamedTuple

import pytest

from storage.sqlite_job_log import SqliteJobLog
from tests.builders import AT, INSPECTOR, complete_certificate, complete_minor_works, done, enter
from tests.storage.database_server import OWNER, DatabaseServer, programs
from tests.tui.commands.command_line import ROOT, RUN, Said, ohmfolio, written

README = (Path(__file__).parents[3] / "README.md").read_text(encoding="utf-8")
_BY_STICK, ON_A_SERVER = re.findall(r"```sh\n((?:server|office)\$.*?)```", README, re.DOTALL)
TOLD = re.findall(r"^(office|laptop)\$ ohmfolio (.*)$", _BY_STICK, re.MULTILINE)
"""Every command that README tells of an office and its laptop: at which desk, and what is typed."""
_OUT, _BACK = ("take-out", "exchange", "exchange"), ("bring-back", "exchange", "exchange")


class TwoDesks(NamedTuple):
    folder: Path

    def at(self, which: str, *typed: str | Path, **environment: str) -> Said:
        state = {"XDG_STATE_HOME": str(self.folder / f"state of {which}")}
        return ohmfolio(*typed, home=self.folder / which, **(state | environment))

    def with_ssh(self, **environment: str) -> dict[str, str]:
        """A program of that name stands in for ssh: it runs what ssh would run at the office, and nothing of ours is replaced."""
        ssh = self.folder / "bin" / "ssh"
        ssh.parent.mkdir(exist_ok=True)
        there = {"OHMFOLIO_HOME": str(self.folder / "office"), "PYTHONPATH": str(ROOT)} | environment
        told = " ".join(f"{name}={shlex.quote(value)}" for name, value in there.items())
        skipped = 'while [ "$1" != ohmfolio ]; do shift; done; shift'
        ssh.write_text(f"#!/bin/sh\n{skipped}\n{told} exec {sys.executable} -c '{RUN}' \"$@\"\n")
        ssh.chmod(0o755)
        return {"PATH": f"{ssh.parent}:{os.environ['PATH']}"}

    def as_told(self, which: str, line: str) -> Said:
        return self.at(which, *shlex.split(line.replace("/media/stick", str(self.stick))))

    @property
    def stick(self) -> Path:
        return self.folder / "stick"


@pytest.fixture(scope="module")
def joined(tmp_path_factory: pytest.TempPathFactory) -> TwoDesks:
    """An office with two jobs, and a laptop that joined by the file made for it."""
    desks = TwoDesks(tmp_path_factory.mktemp("firm"))
    desks.stick.mkdir()
    log = SqliteJobLog.open(desks.folder / "office")
    for _ in range(2):
        log.create(complete_minor_works(), who=INSPECTOR, at=AT)
    log.close()
    made, begun = (desks.as_told(*each) for each in TOLD[:2])
    assert (made.code, made.error) == (0, "")
    assert "numbered from HE-0001" in begun.out, begun.error
    return desks


def test_a_job_goes_out_and_comes_back_by_the_commands_that_readme_tells(joined: TwoDesks) -> None:
    assert [line.split()[0] for _, line in TOLD[2:]] == [*_OUT, *_BACK]
    *_, heard = [joined.as_told(*each) for each in TOLD[2:5]]
    assert "✓ From the office: 1 new, of A-0001" in heard.out, heard.error
    assert "; out with Hester Ekwall  " in joined.at("office", "find", "no:A-0001").out
    log = SqliteJobLog.open(joined.folder / "laptop")
    log.edit("A-0001", enter("client", "name", "Hester Quill"), who="hester", at=AT)
    log.close()

    back, left, taken = (joined.as_told(*each) for each in TOLD[5:])
    assert "A-0001 goes back to the office" in back.out
    assert "1 edit is not at the office" in left.out
    assert "✓ From Hester Ekwall" in taken.out, taken.error
    assert "Hester Quill" in joined.at("office", "find", "no:A-0001").out


def test_a_bundle_that_was_cut_or_altered_is_refused_in_a_sentence_and_nothing_is_taken_in(joined: TwoDesks) -> None:
    joined.at("laptop", "exchange", joined.stick)
    bundle = joined.stick / "HE-to-A.ohmfolio-bundle"
    whole = bundle.read_bytes()

    bundle.write_bytes(whole[:-20])
    cut = joined.at("office", "exchange", joined.stick)
    bundle.write_bytes(whole.replace(b'"', b"'", 1))
    altered = joined.at("office", "exchange", joined.stick)
    bundle.write_bytes(whole)

    assert (cut.code, altered.code) == (2, 2)
    assert "was cut off or spoilt on its way. Nothing was taken in" in cut.error
    assert "is no bundle of this program" in altered.error


def test_a_job_that_is_out_with_nobody_here_is_told_by_name_and_what_is_no_number_is_refused(joined: TwoDesks) -> None:
    assert "is not out with this log" in joined.at("laptop", "bring-back", "A-0002").error
    assert "no number of a job" in joined.at("laptop", "take-out", "bread").error
    assert joined.at("office", "settle").out == "Nothing has to be settled\n"
    assert joined.at("office", "laptop", "HEX", "--to", joined.stick / "other").code == 2


def test_boards_that_two_tested_come_into_one_job_by_a_command_which_says_why_where_they_do_not(
    tmp_path: Path,
) -> None:
    desks, job = TwoDesks(tmp_path), complete_certificate(sign=False)
    other = job.model_copy(
        update={"boards": tuple(each.model_copy(update={"designation": "DB2"}) for each in job.boards)}
    )
    other = done(other, enter("instruments", "multifunction", "MFT 22-417"))
    for each in (job, other):
        desks.at("office", "bring-in", written(each, tmp_path / "job.json"))

    taken, again = (desks.at("office", "take-boards", "a-1", "A-0002") for _ in range(2))

    assert (taken.code, again.code) == (0, 1), taken.error
    assert "✓ DB2 from A-0002 is in A-0001, as tested there" in taken.out
    assert "◆ multifunction tester MFT 22-417 measured there, and A-0001 does not name it" in taken.out
    assert "There is a board DB2 already" in again.out
    assert "A-0001" in desks.at("office", "find").out
    assert "A-0002" not in desks.at("office", "find").out


def test_over_a_line_one_call_asks_for_a_job_and_has_it(joined: TwoDesks) -> None:
    joined.at("laptop", "take-out", "A-0002")

    met = joined.at("laptop", "exchange", "office.example", **joined.with_ssh())

    assert met.code == 0, met.error
    assert "A-0002" in met.out
    assert joined.at("laptop", "bring-back", "A-0002").code == 0


def test_why_there_was_no_line_is_one_sentence_and_the_words_of_ssh_are_made_harmless(joined: TwoDesks) -> None:
    ssh = joined.folder / "deaf" / "ssh"
    ssh.parent.mkdir()
    for script, says in (
        (
            "printf 'ssh: no way \\033[2J there\\n' >&2; exit 255",
            "There was no line to office.example, or it broke: ssh: no way",
        ),
        ("echo 'sh: ohmfolio: not found' >&2; exit 127", "has no program ohmfolio in the path of that account"),
        ("echo 'Welcome to the office, please behave'; cat >/dev/null", "something else speaks first there"),
    ):
        ssh.write_text(f"#!/bin/sh\n{script}\n")
        ssh.chmod(0o755)
        met = joined.at("laptop", "exchange", "office.example", PATH=f"{ssh.parent}:{os.environ['PATH']}")
        assert met.code == 2
        assert says in met.error
        assert "\033" not in met.error
    assert "there is no folder" in joined.at("laptop", "exchange", joined.folder / "none").error.lower()


def test_an_office_on_a_server_is_set_up_by_the_commands_that_readme_tells(
    tmp_path: Path, database_server: DatabaseServer
) -> None:
    desks, folder = TwoDesks(tmp_path), database_server.address("jobs").url.rpartition("=")[2]
    desks.stick.mkdir()
    database_server.tell("DO $$ BEGIN CREATE ROLE clerks; EXCEPTION WHEN duplicate_object THEN END $$")
    server = f"firm@/jobs?host={folder}&schema=firm"
    said: dict[str, Said] = {}
    environment: dict[str, str] = {}
    assert (
        ohmfolio("bring-in", written(complete_minor_works(), tmp_path / "job.json"), home=tmp_path / "office").code == 0
    )
    for desk, line in re.findall(r"^(server|office|laptop)\$ (.*)$", ON_A_SERVER, re.MULTILINE):
        program, *typed = shlex.split(line.replace("keeper@server/jobs?schema=firm", server))
        if program == "createdb":
            database_server.tell("DROP DATABASE IF EXISTS jobs WITH (FORCE)")
            assert programs()
            subprocess.run([programs() / program, "-h", folder, "-U", OWNER, *typed], check=True)
        elif program == "export":
            environment = dict([typed[0].split("=", 1)])
        elif desk == "office":
            said[typed[0]] = desks.at(desk, *_on(desks.stick, typed), **environment)
        else:
            said[typed[0]] = desks.at(desk, *_on(desks.stick, typed), **desks.with_ssh(**environment))
    assert {name: each.error for name, each in said.items() if each.code} == {}
    assert [*said] == ["move", "tend", "laptop", "join", "exchange"]
    assert "is the log of Mungo Rooke now" in said["join"].out
    assert desks.at("laptop", "take-out", "A-0001").code == 0
    assert "of A-0001" in desks.at("laptop", "exchange", "office", **desks.with_ssh(**environment)).out


def _on(stick: Path, typed: list[str]) -> list[str]:
    return [each.replace("/media/stick", str(stick)) for each in typed]


def test_the_days_for_which_a_laptop_issues_alone_are_changed_by_the_office(joined: TwoDesks) -> None:
    said = joined.at("office", "laptop", "HE", "--days", "30")
    assert (said.code, said.error) == (0, "")
    assert said.out.startswith("✓ HE issues for 30 days without this office, once it has heard of that\n")
    assert "HE   Hester Ekwall, " in said.out
    assert "; issues 30 days without the office" in said.out
    unknown = joined.at("office", "laptop", "ZZ", "--days", "30")
    assert unknown.code == 2
    assert "No laptop of this office numbers with ZZ" in unknown.error
