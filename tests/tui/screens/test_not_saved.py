"""What the log cannot take stays in the person's hands: said, tried again by one key, never joined to what is typed next."""

import json
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import timedelta
from pathlib import Path
from typing import Any

from textual import events

from domain.job.exchange import job_from_json
from domain.log.job_log import BusyError, JobLogError
from domain.place import Place
from storage.log_file import FILE_NAME
from storage.postgres.postgres_job_log import PostgresJobLog
from storage.turn import Turn
from tests.builders import AT, INSPECTOR, complete_certificate, complete_minor_works
from tests.storage.database_server import DatabaseServer
from tests.tui.screens.job_at import at_step
from tests.tui.screens.services import app_in, services_in
from tests.tui.screens.shown import text_of
from tests.tui.screens.test_many_hands import until
from tui.job_page import JobPage
from tui.screens.dialogs import ConfirmScreen, LineScreen

ZS = Place(section="boards", board="b1", circuit="c1", box="zs")


async def test_a_figure_typed_after_one_that_was_not_saved_does_not_join_it_and_one_key_tries_again(
    tmp_path: Path, monkeypatch
) -> None:
    async with at_step(JobPage.RESULTS, complete_certificate(sign=False), tmp_path, place=ZS) as at:

        def full(*_: object, **__: object) -> None:
            raise JobLogError("The disk is full")

        monkeypatch.setattr(at.log, "edit", full)
        await at.type("0.51", "enter")
        assert "NOT SAVED, Enter tries again" in at.line_with("A-0001")
        await at.type("62")
        assert at.screen.part.entering.entry.text == "62"
        await at.press("escape")
        assert at.screen.part.entering.entry.text == "0.51"
        await at.press("backspace")
        await at.type("7")
        assert at.screen.part.entering.entry.text == "0.57"
        monkeypatch.undo()
        await at.press("enter")
        assert at.job.boards[0].circuits[0].zs.typed == "0.57"
        assert "NOT SAVED" not in at.text
        assert "saved" in at.line_with("A-0001")


async def test_a_line_to_the_server_cut_while_a_figure_is_typed_is_taken_up_and_a_server_gone_is_told_in_one_line(
    tmp_path: Path, database_server: DatabaseServer
) -> None:
    office = PostgresJobLog.open(database_server.address("postgres", "cut_off"))
    async with at_step(JobPage.RESULTS, complete_certificate(sign=False), tmp_path, place=ZS, log=office) as at:
        await at.type("0.51")
        database_server.tell(
            "SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE application_name = 'ohmfolio'"
        )
        await at.press("enter")
        assert at.job.boards[0].circuits[0].zs.typed == "0.51"
        assert "NOT SAVED" not in at.text
        await at.type("19")
        database_server.kill()
        await at.press("enter")
        assert "NOT SAVED, Enter tries again" in at.line_with("A-0001")
        assert "The job log's server does not answer; this was not saved" in at.said
        assert at.screen.part.entering.entry.text == "19"
        database_server.start()
        await at.press("enter")
        assert "19" in at.line_with("Kitchen sockets")
        assert "NOT SAVED" not in at.text


async def test_whoever_begins_to_type_while_the_server_is_gone_may_and_has_it_saved_once_it_is_there(
    tmp_path: Path, database_server: DatabaseServer
) -> None:
    office = PostgresJobLog.open(database_server.address("postgres", "gone"))
    async with at_step(JobPage.RESULTS, complete_certificate(sign=False), tmp_path, place=ZS, log=office) as at:
        database_server.kill()
        await at.type("0.51")
        assert at.screen.part.entering.entry.text == "0.51"
        await at.press("enter")
        assert "NOT SAVED, Enter tries again" in at.line_with("A-0001")
        database_server.start()
        await at.press("enter")
        assert at.job.boards[0].circuits[0].zs.typed == "0.51"


async def test_a_mark_set_by_one_key_while_the_server_is_gone_is_kept_by_itself_once_it_is_there(
    tmp_path: Path, database_server: DatabaseServer
) -> None:
    office = PostgresJobLog.open(database_server.address("postgres", "marked"))
    place = ZS.model_copy(update={"box": "ir_live"})
    async with at_step(JobPage.RESULTS, complete_certificate(sign=False), tmp_path, place=place, log=office) as at:
        database_server.kill()
        await at.press("f10")
        assert "NOT SAVED yet" in at.line_with("A-0001")
        database_server.start()
        await until(at, lambda: "Saved now" in at.said)
        assert at.job.boards[0].circuits[0].ir_live.typed == "N/A"
        assert "NOT SAVED" not in at.text


async def test_what_was_typed_ahead_of_a_save_that_failed_is_told_and_lands_nowhere(
    tmp_path: Path, monkeypatch
) -> None:
    async with at_step(JobPage.RESULTS, complete_certificate(sign=False), tmp_path, place=ZS) as at:
        before = at.job.boards[0].circuits

        def full(*_: object, **__: object) -> None:
            # It would be taken the second time: what was typed for the next circuit must not be.
            monkeypatch.undo()
            # What another program holds is not tried again by itself the moment after.
            raise BusyError("Another program holds the job log")

        monkeypatch.setattr(at.log, "edit", full)
        for key in ("0", ".", "5", "1", "enter", "0", ".", "6", "2", "enter"):
            at.app.post_message(events.Key(key, None if key == "enter" else key))
        await at.press()
        assert "nor taken what was typed ahead: 0.62" in at.said
        assert at.screen.part.entering.entry.text == "0.51"
        assert at.job.boards[0].circuits == before


async def test_a_log_gone_from_under_the_hands_offers_a_copy_that_bring_in_takes(tmp_path: Path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    async with at_step(JobPage.RESULTS, complete_certificate(sign=False), tmp_path, place=ZS) as at:
        (tmp_path / "log" / FILE_NAME).rename(tmp_path / "elsewhere")
        await at.type("0.57", "enter")
        assert isinstance(at.app.screen, LineScreen)
        assert "moved, deleted or replaced" in " ".join(at.text.split())
        await typed_over(at, "copy.json")
        assert at.said.startswith("A copy is in")
        copied = job_from_json((tmp_path / "copy.json").read_bytes())
        assert copied.boards[0].circuits[0].zs.typed == "0.57"
        assert json.loads((tmp_path / "copy.json").read_text())["number"] == "A-0001"
        assert "NOT SAVED" in at.text
        assert at.screen.part.entering.entry.text == "0.57"
        (tmp_path / "elsewhere").rename(tmp_path / "log" / FILE_NAME)
        await at.press("enter")
        assert at.job.boards[0].circuits[0].zs.typed == "0.57"


async def test_a_full_disk_offers_a_copy_elsewhere_until_one_is_kept_and_the_entry_stays_open(
    tmp_path: Path, monkeypatch
) -> None:
    monkeypatch.chdir(tmp_path)
    async with at_step(JobPage.RESULTS, complete_certificate(sign=False), tmp_path, place=ZS) as at:
        with no_more_room(at.log):
            await at.type("0.57", "enter")
            assert isinstance(at.app.screen, LineScreen)
            assert "The disk is full" in " ".join(at.text.split())
            (tmp_path / "there.json").touch()
            await typed_over(at, "there.json")
            assert "it exists already. Type another place" in " ".join(at.text.split())
            await typed_over(at, "stick/copy.json")
            assert at.said.startswith("A copy is in")
            assert "NOT SAVED" in at.text
            assert at.screen.part.entering.entry.text == "0.57"
        copied = job_from_json((tmp_path / "stick" / "copy.json").read_bytes())
        assert copied.boards[0].circuits[0].zs.typed == "0.57"
        await at.press("enter")
        assert at.job.boards[0].circuits[0].zs.typed == "0.57"


@contextmanager
def no_more_room(log: Any) -> Iterator[None]:
    """SQLite's own limit of a file: the next page it needs is one too many."""
    connection = log._store._file._connection
    connection.execute("PRAGMA max_page_count = 1")
    yield
    connection.execute("PRAGMA max_page_count = 4294967294")


async def typed_over(at: Any, path: str) -> None:
    await at.press("end", "ctrl+u")
    await at.type(path, "enter")


async def test_a_lock_that_another_holds_is_told_on_the_screen_while_it_is_waited_for(
    tmp_path: Path, monkeypatch
) -> None:
    monkeypatch.setattr("storage.turn.PATIENCE", 0.02)
    painted: list[str] = []
    async with at_step(JobPage.RESULTS, complete_certificate(sign=False), tmp_path, place=ZS) as at:
        shown_by = at.app.services.waiting.shown_by

        def seen(sentence: str) -> None:
            shown_by(sentence)
            painted.append(at.text)

        at.app.services.waiting.shown_by = seen
        held = Turn(tmp_path / "log")
        with held.taken():
            await at.type("0.57", "enter")
        held.close()
        assert "Another program is at the job log; waiting for it." in painted[0]
        assert "has not let go" in at.said
        await at.press("enter")
        assert at.job.boards[0].circuits[0].zs.typed == "0.57"


async def test_a_log_that_lost_what_was_kept_says_so_on_the_first_screen(tmp_path: Path) -> None:
    services = services_in(tmp_path)
    older = tmp_path / "older"
    services.log.close()
    shutil.copy(tmp_path / "log" / FILE_NAME, older)
    services = services_in(tmp_path)
    services.log.create(complete_certificate(), who="anna", at=AT)
    services.log.close()
    shutil.copy(older, tmp_path / "log" / FILE_NAME)
    app = app_in(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        assert "change that was kept is missing from the job log" in " ".join(text_of(app).split())
    app.services.log.close()


async def test_a_paper_dated_before_the_last_one_is_asked_about_and_issued_on_yes(tmp_path: Path) -> None:
    services = services_in(tmp_path)
    services.log.issue_document(complete_minor_works(), by=INSPECTOR, at=AT + timedelta(days=40), bind=services.bind)
    services.log.add_note("name", INSPECTOR, who=services.who, at=AT)
    services.log.close()
    async with at_step(JobPage.ISSUE, complete_minor_works(), tmp_path) as at:
        await at.press("i", "enter")
        await at.app.workers.wait_for_complete()
        await at.press()
        assert isinstance(at.app.screen, ConfirmScreen)
        assert "A-0001, the last paper issued, is dated" in " ".join(at.text.split())
        assert at.job.issued is None
        await at.press("y")
        await at.app.workers.wait_for_complete()
        await at.press()
        assert at.job.issued
