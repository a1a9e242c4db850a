"""An office and a laptop by their commands, with a stick between them."""

import os
import re
import shlex
import sys
from pathlib import Path
from typing import NamedTuple

import pytest

from storage.sqlite_job_log import SqliteJobLog
from tests.builders import AT, INSPECTOR, complete_minor_works, enter
from tests.tui.commands.command_line import ROOT, RUN, Said, ohmfolio

README = (Path(__file__).parents[3] / "README.md").read_text(encoding="utf-8")
TOLD = re.findall(r"^(office|laptop)\$ ohmfolio (.*)$", README, re.MULTILINE)
"""Every command that README tells of an office and its laptop: at which desk, and what is typed."""
_OUT, _BACK = ("take-out", "exchange", "exchange"), ("bring-back", "exchange", "exchange")


class TwoDesks(NamedTuple):
    folder: Path

    def at(self, which: str, *typed: str | Path) -> Said:
        return ohmfolio(*typed, home=self.folder / which, XDG_STATE_HOME=str(self.folder / "state"))

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


def test_over_a_line_one_call_asks_for_a_job_and_has_it(joined: TwoDesks) -> None:
    """A program of that name stands in for ssh: it runs what ssh would run at the office, and nothing of ours is replaced."""
    ssh = joined.folder / "bin" / "ssh"
    ssh.parent.mkdir()
    office, program = joined.folder / "office", f"{sys.executable} -c '{RUN}'"
    skipped = 'while [ "$1" != ohmfolio ]; do shift; done; shift'
    ssh.write_text(f"#!/bin/sh\n{skipped}\nOHMFOLIO_HOME='{office}' PYTHONPATH='{ROOT}' exec {program} \"$@\"\n")
    ssh.chmod(0o755)
    joined.at("laptop", "take-out", "A-0002")

    met = ohmfolio(
        *("exchange", "office.example"),
        home=joined.folder / "laptop",
        XDG_STATE_HOME=str(joined.folder / "state"),
        PATH=f"{ssh.parent}:{os.environ['PATH']}",
    )

    assert met.code == 0, met.error
    assert "A-0002" in met.out
    assert joined.at("laptop", "bring-back", "A-0002").code == 0
