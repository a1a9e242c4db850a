"""Bundles that lie in a folder for whoever comes by: taken in once, and those of names that are no more passed over."""

from pathlib import Path

import pytest

from domain.laptops.bundle import Exchanged
from storage.laptops.meeting import Meeting
from storage.stamp import Stamp
from tests.builders import AT, complete_minor_works
from tests.storage.issuing import WHO
from tests.storage.laptops.firms import SmallFirm


def test_after_a_copy_was_put_back_on_a_laptop_what_lay_there_under_its_old_name_holds_nobody_up(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    firm, stick = SmallFirm(tmp_path), tmp_path / "stick"
    stick.mkdir()

    def by_stick(letters: str) -> list[Exchanged]:
        home = tmp_path / letters
        meeting = Meeting(home, firm.logs[letters], Stamp.of_folder(home), renamed=int)
        return meeting.in_folder(stick, at=AT)

    number = firm.office.create(complete_minor_works(), who=WHO, at=AT).number
    firm.office.begin_seal_key(who=WHO, at=AT)
    firm.buy("HE", "Hester Ekwall")
    firm.firm(firm.office).take_out(number, to="HE", at=AT)
    kept = firm.save("HE")
    by_stick("A")
    assert [each.new for each in by_stick("HE")] == [1]
    firm.firm(firm.logs["HE"]).bring_back(number, at=AT)
    by_stick("A")

    firm.put_back("HE", kept)

    assert by_stick("HE") == [], "what the office left for HE follows on what HEA has not heard"
    firm.close()
