"""`keys` and `sign`: the key of the seal and a certificate of one's own, from the command line to the check by a stranger."""

from pathlib import Path

import pytest

from tests.builders import complete_minor_works
from tests.tui.commands.command_line import ohmfolio, sentence_of, written


@pytest.fixture(scope="module")
def folder(tmp_path_factory) -> Path:
    """A log in `home`, a paper it issued in `out`, and the card of its keys."""
    folder = tmp_path_factory.mktemp("keys")
    (folder / "out").mkdir()
    ohmfolio(
        "issue", written(complete_minor_works(), folder / "job.json"), "--to", folder / "out", home=folder / "home"
    )
    assert ohmfolio("keys", "card", folder / "card", home=folder / "home").code == 0
    return folder


def test_a_stranger_checks_a_paper_by_fingerprint_key_or_card_and_begins_no_log(folder: Path) -> None:
    (paper,) = (folder / "out").rglob("*.pdf")
    (key,) = ohmfolio("keys", "--json", home=folder / "home").value
    nowhere = folder / "nowhere"
    for firm in (key["fingerprint"], key["key"].upper(), str(folder / "card")):
        said = ohmfolio("verify", paper, "--firm", firm, "--json", home=nowhere)
        assert (said.code, said.value["verdict"]) == (0, "unaltered")
    said = ohmfolio("verify", paper, "--firm", "ab" * 20, home=nowhere)
    assert said.code == 1
    assert "not signed with the key abab abab" in said.out
    assert "forty letters" in sentence_of(ohmfolio("verify", paper, "--firm", "Harebell", home=nowhere))
    assert "holds no keys" in sentence_of(ohmfolio("verify", paper, "--firm", paper, home=nowhere))
    assert not nowhere.exists()


def test_what_keys_cannot_do_is_said_in_a_sentence(folder: Path) -> None:
    assert "keys takes one of" in sentence_of(ohmfolio("keys", "renew", home=folder / "home"))
    assert "keys takes one of" in sentence_of(ohmfolio("keys", "card", home=folder / "home"))
    assert "exists already" in sentence_of(ohmfolio("keys", "card", folder / "card", home=folder / "home"))
    assert "name a file" in sentence_of(ohmfolio("backup", "--with-key", home=folder / "home"))
