"""What follows an issue: the pack fetched, sent, and handed to an office's own command."""

import email
import shlex
import sys
from email.policy import default
from pathlib import Path

import pytest

from domain.duties.mail_draft import mail_draft
from domain.job.people import Client
from tests.builders import complete_minor_works, complete_report
from tests.tui.commands.command_line import ohmfolio, written
from tui.after_issue import copy_lines, follow_up


def test_a_pack_goes_into_a_folder_made_for_it_with_a_draft_to_send_it_and_the_offices_command_is_run(tmp_path: Path):
    file, told = written(complete_minor_works(), tmp_path / "job.json"), tmp_path / "told"
    command = shlex.join(
        [sys.executable, "-c", f"import sys; open({str(told)!r}, 'w').write(sys.argv[1]); sys.exit(4)"]
    )
    out = tmp_path / "new folder"
    said = ohmfolio("issue", file, "--to", out, "--mail", home=tmp_path / "home", OHMFOLIO_AFTER_ISSUE=command)
    assert said.code == 0, said
    pack = out / "A-0001-MEIWC"
    assert told.read_text(encoding="utf-8") == str(pack)
    assert "It is issued, but" in said.out
    assert "ended with 4" in said.out
    assert f"scp -r {copy_lines(pack)[0].removeprefix('scp -r ')}" in said.out
    letter = email.message_from_bytes((out / "A-0001-MEIWC.eml").read_bytes(), policy=default)
    assert letter["Subject"].startswith("Minor Electrical Installation Works Certificate A-0001")
    attached = {part.get_filename(): part.get_content() for part in letter.iter_attachments()}
    assert attached["A-0001-MEIWC.pdf"] == (pack / "A-0001-MEIWC.pdf").read_bytes()


def test_a_folder_in_no_folder_is_refused_before_anything_is_issued(tmp_path: Path):
    file = written(complete_minor_works(), tmp_path / "job.json")
    said = ohmfolio("issue", file, "--to", tmp_path / "none" / "out", home=tmp_path / "home")
    assert said.code == 2
    assert "nor is there one to make it in" in said.error
    assert not (tmp_path / "none").exists()


@pytest.mark.parametrize("name", ["a b", "$(touch owned)", "; touch owned", "it's"])
def test_a_folder_of_any_name_is_an_argument_and_never_a_command(name: str, tmp_path: Path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    script = "import sys, pathlib; pathlib.Path('seen').write_text(sys.argv[1])"
    assert follow_up(shlex.join([sys.executable, "-c", script]), tmp_path / name) == ""
    assert (tmp_path / "seen").read_text(encoding="utf-8") == str(tmp_path / name)
    assert not (tmp_path / "owned").exists()
    assert shlex.split(copy_lines(tmp_path / name)[0])[2].endswith(f":{tmp_path / name}")


def test_a_command_that_is_not_there_is_told_and_nothing_more(tmp_path: Path):
    assert "cannot be run" in follow_up("no-such-program-here", tmp_path)


def test_a_draft_goes_to_the_clients_own_address_and_names_the_paper():
    job = complete_report().model_copy(
        update={"number": "A-0007", "client": Client(name="Zoë", contact="01632 960999, zoe@example.org")}
    )
    draft = mail_draft(job)
    assert draft.to == ("zoe@example.org",)
    assert draft.subject.startswith("Electrical Installation Condition Report A-0007, ")
    assert "Attached: " in draft.text
