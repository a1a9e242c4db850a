"""`verify`: whether a file is a paper as it was issued, from the command line."""

from pathlib import Path

from tests.builders import complete_minor_works
from tests.tui.commands.command_line import ohmfolio, sentence_of, written


def test_a_file_is_told_as_issued_altered_or_unknown_and_its_name_does_not_matter(tmp_path: Path) -> None:
    home, out = tmp_path / "home", tmp_path / "out"
    out.mkdir()
    issued = ohmfolio("issue", written(complete_minor_works(), tmp_path / "job.json"), "--to", out, "--json", home=home)
    file = Path(issued.value["file"])
    other = tmp_path / "A-0099-EICR.pdf"
    other.write_bytes(file.read_bytes())
    said = ohmfolio("verify", other, "--json", home=home)
    assert (said.code, said.value["verdict"], said.value["number"]) == (0, "unaltered", "A-0001")
    assert said.value["sha256"] == issued.value["sha256"]
    elsewhere = tmp_path / "nowhere"
    said = ohmfolio("verify", other, "--json", home=elsewhere)
    assert (said.code, said.value["verdict"]) == (3, "unknown")
    assert not elsewhere.exists()
    other.write_bytes(file.read_bytes() + b"\n")
    said = ohmfolio("verify", other, home=home)
    assert said.code == 1
    assert said.out.startswith("✗ The first ")
    assert "something that is no signature" in said.out
    assert said.error == ""


def test_what_is_no_pdf_is_said_in_a_sentence_and_no_log_is_begun(tmp_path: Path) -> None:
    note = tmp_path / "note.pdf"
    note.write_text("no pdf")
    assert sentence_of(ohmfolio("verify", note, home=tmp_path / "home")) == f"{note}: it is not a PDF"
    assert "There is no file" in sentence_of(ohmfolio("verify", tmp_path / "none.pdf", home=tmp_path / "home"))
    assert not (tmp_path / "home").exists()
