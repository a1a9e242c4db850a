"""An office whose log is on a server: moved there with its laptops, worked at by people with few rights, put back."""

import threading

import pytest

from domain.editing.commands import Declined
from domain.laptops.matter import MatterKind
from domain.log.job_log import JobLogError
from storage.laptops.joining import join, write_first_of
from storage.moving.folder_place import FolderPlace
from storage.moving.moving import move
from storage.moving.server_place import ServerPlace
from storage.postgres.layout import STEPS
from storage.postgres.postgres_job_log import PostgresJobLog
from storage.postgres.postgres_upkeep import PostgresUpkeep
from storage.postgres.server_address import ServerAddress
from storage.postgres.server_lines import connected_to
from storage.sqlite_job_log import SqliteJobLog
from tests.builders import AT, complete_minor_works, enter
from tests.storage.database_server import DatabaseServer, put_back, saved, told
from tests.storage.issuing import WHO
from tests.storage.laptops.firms import SmallFirm


@pytest.fixture
def firm(tmp_path, monkeypatch, address):
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    firm = SmallFirm(tmp_path, address)
    yield firm
    firm.close()


def begun(log) -> str:
    return log.create(complete_minor_works(), who=WHO, at=AT).number


def renamed(log, number: str, name: str):
    return log.edit(number, enter("client", "name", name), who=WHO, at=AT)


def test_an_office_moves_to_a_server_and_back_with_its_laptops_and_goes_on_with_them(
    tmp_path, monkeypatch, database_server: DatabaseServer
) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    address = database_server.address("postgres", "office_moved")
    firm = SmallFirm(tmp_path)
    number = begun(firm.office)
    laptop = firm.buy("HE", "Hester Ekwall")
    firm.lend(number, "HE")
    renamed(laptop, number, "Hester Quill")
    firm.office.close()

    move(FolderPlace(tmp_path / "A"), ServerPlace(address), place=str(address), at=AT)
    firm.logs["A"] = PostgresJobLog.open(address, tmp_path / "A")
    assert isinstance(renamed(firm.office, number, "Nobody"), Declined)
    firm.firm(laptop).bring_back(number, at=AT)
    firm.meet("HE")
    assert firm.office.load(number) == laptop.load(number)
    begun(firm.office)
    firm.meet("HE")
    firm.office.close()

    move(ServerPlace(address), FolderPlace(tmp_path / "again"), place=str(tmp_path / "again"), at=AT)
    firm.logs["A"] = SqliteJobLog.open(tmp_path / "again")
    firm.meet("HE")
    assert renamed(firm.office, number, "Ansel Birch").client.name == "Ansel Birch"
    firm.meet("HE")
    assert laptop.load(number) == firm.office.load(number)
    assert firm.firm(firm.office).matters() == ()
    laptop.close()
    with pytest.raises(JobLogError, match="that of a laptop, and stays on it"):
        FolderPlace(tmp_path / "HE").whole()
    firm.close()


def test_the_first_file_of_a_laptop_is_made_of_a_log_on_a_server_papers_and_all(firm: SmallFirm, address) -> None:
    number = begun(firm.office)
    firm.firm(firm.office, begun=True).enrol("HE", device="he00", person="Hester Ekwall", at=AT)
    first = firm.folder / "first"

    write_first_of(ServerPlace(address), first, at=AT)
    joined = join(firm.folder / "HE", first, who=WHO, at=AT)

    assert joined.name == "HE"
    firm.logs["HE"] = SqliteJobLog.open(firm.folder / "HE")
    firm.lend(number, "HE")
    assert renamed(firm.logs["HE"], number, "Hester Quill").client.name == "Hester Quill"
    assert begun(firm.logs["HE"]) == "HE-0001"


def test_people_of_a_role_work_at_an_office_with_laptops_and_alter_nothing_that_was_told(
    firm: SmallFirm, address: ServerAddress, database_server: DatabaseServer
) -> None:
    theirs = opened_to_a_clerk(database_server, address)
    number = begun(firm.office)
    firm.buy("HE", "Hester Ekwall")
    firm.office.close()
    firm.logs["A"] = PostgresJobLog.open(theirs, firm.folder / "A")

    assert renamed(firm.office, number, "Hester Quill").client.name == "Hester Quill"
    firm.lend(number, "HE")
    begun(firm.logs["HE"])
    firm.meet("HE")

    assert firm.office.load("HE-0001") is not None
    for act in (
        "UPDATE operation SET body = ''",
        "DELETE FROM operation",
        "TRUNCATE operation",
        "DELETE FROM holding",
        "UPDATE device SET prefix = 'B'",
        "INSERT INTO device VALUES ('x', 'B', 1, false)",
    ):
        assert "permission denied" in told(act, theirs), act
    for act in ("UPDATE operation SET body = ''", "DELETE FROM operation", "TRUNCATE operation"):
        assert "stays" in told(act, address), act


def test_an_office_put_back_goes_on_under_other_letters_whoever_finds_it_so(
    firm: SmallFirm, address: ServerAddress, database_server: DatabaseServer
) -> None:
    theirs = opened_to_a_clerk(database_server, address)
    firm.buy("HE", "Hester Ekwall")
    kept = saved(address)
    firm.office.close()
    firm.logs["A"] = PostgresJobLog.open(theirs)
    gone = begun(firm.office)
    firm.office.close()
    put_back(address, kept)

    firm.logs["A"] = office = PostgresJobLog.open(theirs)

    assert (gone, begun(office)) == ("A-0001", "AA-0001")
    firm.meet("HE")
    firm.meet("HE")
    assert [each.kind for each in firm.firm(office).matters()] == [MatterKind.LOST_WORK]


def test_an_edit_made_while_the_first_laptop_is_enrolled_is_in_its_first_file_or_told_to_it(
    firm: SmallFirm, address: ServerAddress
) -> None:
    number, enrolled = begun(firm.office), threading.Event()
    others = [PostgresJobLog.open(address) for _ in range(2)]

    def typed(log: PostgresJobLog, who: str) -> None:
        kept = 0
        while kept < 5 or not enrolled.is_set():
            renamed(log, number, f"{who} {kept}")
            kept += 1

    typists = [threading.Thread(target=typed, args=each) for each in zip(others, ("Quill", "Birch"), strict=True)]
    for typist in typists:
        typist.start()
    laptop = firm.buy("HE")
    enrolled.set()
    for typist in typists:
        typist.join()
    firm.meet("HE")

    assert laptop.load(number) == firm.office.load(number)
    assert [each.what for each in laptop.trail(number)] == [each.what for each in firm.office.trail(number)]
    for log in others:
        log.close()


def test_a_log_of_an_earlier_layout_is_brought_up_and_stays_open_to_whom_it_was_opened(
    database_server: DatabaseServer,
) -> None:
    address = database_server.address("postgres", "laid_out_before")
    database_server.tell("DROP ROLE IF EXISTS elder; CREATE ROLE elder LOGIN; CREATE SCHEMA laid_out_before")
    with connected_to(address) as connection:
        for statement in STEPS[0]:
            connection.execute(statement)
        connection.execute("UPDATE layout SET version = 1")
        connection.execute("GRANT USAGE ON SCHEMA laid_out_before TO elder")
        connection.execute("GRANT SELECT, INSERT ON edit TO elder")
    PostgresJobLog.open(address).close()

    log = PostgresJobLog.open(database_server.address("postgres", "laid_out_before", "elder"))
    assert begun(log) == "A-0001"
    log.close()


def opened_to_a_clerk(server: DatabaseServer, address: ServerAddress) -> ServerAddress:
    """The log as somebody has it who may work in it and no more."""
    server.tell("DO $$ BEGIN CREATE ROLE clerk LOGIN; EXCEPTION WHEN duplicate_object THEN END $$")
    PostgresUpkeep(address).share("clerk")
    return server.address("postgres", person="clerk")
