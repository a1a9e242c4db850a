"""Who may look at a log, and what programs left behind in its folder, by the files alone."""

import grp
import os
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from domain.log.upkeep import Concern
from storage.upkeep.leftovers import clear, faults_of_leftovers, leftovers
from storage.upkeep.sharing import faults_of_access


@pytest.mark.parametrize(("count", "more"), [(1, ""), (3, ""), (4, " and 1 more"), (6, " and 3 more")])
def test_of_many_files_left_over_three_are_named_and_younger_ones_are_left_alone(tmp_path, count, more):
    at = datetime.now(UTC)
    for name, age in [*((f".{each}.part", 3601) for each in range(count)), (".young.part", 3590), ("no.part", 9999)]:
        (tmp_path / name).write_bytes(b"half")
        os.utime(tmp_path / name, ((at - timedelta(seconds=age)).timestamp(),) * 2)
    (fault,) = faults_of_leftovers(tmp_path, at)
    names = ", ".join(str(tmp_path / f".{each}.part") for each in range(min(count, 3)))
    assert (fault.about, fault.says) == (
        Concern.LEFTOVERS,
        f"A program ended while it wrote a file: {names}{more}.",
    )
    assert clear(leftovers(tmp_path, at)) == f"{count} unfinished files were removed."
    assert {path.name for path in tmp_path.iterdir()} == {".young.part", "no.part"}
    assert [*faults_of_leftovers(tmp_path, at)] == []


def made_with(home: Path, folder: int, **modes: int) -> Path:
    """The folder of a log, with files of a mode each."""
    home.mkdir()
    home.chmod(folder)
    for name, mode in modes.items():
        path = home / name.replace("__", "/").replace("_", ".")
        path.parent.mkdir(exist_ok=True)
        path.parent.chmod(home.stat().st_mode & 0o7777)
        path.write_bytes(b"")
        path.chmod(mode)
    return home


_PRIVATE, _SHARED = 0o700, 0o2770


@pytest.mark.parametrize(
    ("folder", "modes", "says", "do"),
    [
        pytest.param(_PRIVATE, {"ohmfolio_db": 0o600, "issued__A_pdf": 0o600}, [], "", id="kept to oneself"),
        pytest.param(0o750, {}, ["Others on this computer can look into {home}."], "chmod 700 {home}", id="the folder open to a group"),
        pytest.param(0o701, {}, ["Others on this computer can look into {home}."], "--share GROUP", id="the folder open to all"),
        pytest.param(_PRIVATE, {"ohmfolio_db": 0o640}, ["Open to people the log is not open to: {home}/ohmfolio.db."], "chmod -R go= {home}", id="a file open to a group"),
        pytest.param(_PRIVATE, {"issued__A_pdf": 0o604}, ["Open to people the log is not open to: {home}/issued/A.pdf."], "chmod -R go= {home}", id="a paper open to all"),
        pytest.param(_PRIVATE, {"binding__A_pdf": 0o604}, ["Open to people the log is not open to: {home}/binding/A.pdf."], "chmod -R go= {home}", id="an unfinished paper open to all"),
        pytest.param(_PRIVATE, {"else": 0o644}, [], "", id="a file of somebody else's"),
        pytest.param(_PRIVATE, {f"issued__{each}_pdf": 0o604 for each in "ABC"}, ["Open to people the log is not open to: {home}/issued/A.pdf, {home}/issued/B.pdf, {home}/issued/C.pdf."], "go=", id="three"),
        pytest.param(_PRIVATE, {f"issued__{each}_pdf": 0o604 for each in "ABCDE"}, ["Open to people the log is not open to: {home}/issued/A.pdf, {home}/issued/B.pdf, {home}/issued/C.pdf and 2 more."], "go=", id="more than three"),
        pytest.param(_SHARED, {"ohmfolio_db": 0o660, "issued__A_pdf": 0o660}, [], "", id="shared"),
        pytest.param(_SHARED, {"ohmfolio_db": 0o664}, ["Open to people the log is not open to: {home}/ohmfolio.db."], "--share {group}", id="shared, and a file open to all"),
        pytest.param(_SHARED, {"ohmfolio_db": 0o640}, ["Closed to the group that shares the log: {home}/ohmfolio.db."], "--share {group}", id="shared, and a file the group may only read"),
    ],
)  # fmt: skip
def test_who_may_look_at_a_log_is_said_of_folder_and_files_and_what_to_do(tmp_path, folder, modes, says, do):
    home = made_with(tmp_path / "it", folder, **modes)
    faults = [*faults_of_access(home)]
    assert [each.says for each in faults] == [each.format(home=home) for each in says]
    assert all(each.about is Concern.ACCESS for each in faults)
    group = grp.getgrgid(home.stat().st_gid).gr_name
    assert all(do.format(home=home, group=group) in each.do for each in faults)
