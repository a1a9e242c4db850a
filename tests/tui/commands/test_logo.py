"""The logo of a firm, kept, shown and taken off."""

from pathlib import Path

from domain.register.entries import KnownFirm, RegisterKind
from storage.sqlite_job_log import SqliteJobLog
from tests.builders import AT
from tests.tui.commands.command_line import ohmfolio, sentence_of
from tui.screens.register_forms import entry_from, typed_of

SVG = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 2 1"><rect width="2" height="1" fill="#0d4d54"/></svg>'


def test_a_logo_is_kept_with_a_firm_of_the_register_and_taken_off_again(tmp_path: Path):
    home, file = tmp_path / "home", tmp_path / "logo.svg"
    file.write_text(SVG, encoding="utf-8")
    log = SqliteJobLog.open(home)
    log.register(KnownFirm(name="Harebell Electrical"), who="tamsin", at=AT)
    log.close()
    assert ohmfolio("logo", "Somebody Else", file, "--says", "A bar", home=home).code == 1
    assert "needs --says" in sentence_of(ohmfolio("logo", "Harebell Electrical", file, home=home))
    file.with_suffix(".txt").write_text("Minutes", encoding="utf-8")
    refused = ohmfolio("logo", "Harebell Electrical", file.with_suffix(".txt"), "--says", "A bar", home=home)
    assert "nothing was changed" in sentence_of(refused)
    kept = ohmfolio("logo", "harebell electrical", file, "--says", "A bar", "--json", home=home)
    assert kept.value["logo"]["kind"] == "svg"
    log = SqliteJobLog.open(home)
    (firm,) = log.registered(RegisterKind.FIRM, "Harebell")
    log.close()
    form = {**typed_of(firm.entry), "contact": "01632 960104"}
    assert entry_from(RegisterKind.FIRM, form, firm.entry).logo == firm.entry.logo, "the form leaves it alone"
    assert ohmfolio("logo", "Harebell Electrical", "--none", "--json", home=home).value["logo"] is None
