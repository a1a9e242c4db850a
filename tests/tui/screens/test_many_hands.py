"""What others do shows while one works; undo, the trail, and what the disk would not take, by keys."""

import resource
from collections.abc import Callable
from pathlib import Path

import pytest

from domain.editing.commands import AddCircuit, Declined, Enter, Fill, RaiseSnag
from domain.place import Place
from storage.sqlite_job_log import SqliteJobLog
from tests.builders import AT, INSPECTOR, ON, complete_certificate, complete_minor_works, enter
from tests.tui.screens.job_at import AtStep, at_step, step_on
from tui.job_page import JobPage
from tui.screens.find import FindScreen
from tui.screens.job_session import JobSession
from tui.screens.trail import TrailScreen

ZS = Place(section="boards", board="b1", circuit="c2", box="zs")
NAME = Place(section="client", box="name")


@pytest.fixture(autouse=True)
def listens_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(JobSession, "HEARS_EVERY", 0.02)


async def until(at: AtStep, holds: Callable[[], bool]) -> None:
    """Let the program run until something holds."""
    for _ in range(500):
        if holds():
            return
        await at.pilot.pause(0.01)
    raise AssertionError(at.text)


class Colleague:
    """Somebody else at the same log, in a program of their own."""

    def __init__(self, home: Path) -> None:
        self.log = SqliteJobLog.open(home / "log")

    def do(self, at: AtStep, command) -> None:
        assert not isinstance(self.log.edit(at.number, command, who="robin", at=AT), Declined)


@pytest.fixture
def robin(tmp_path: Path):
    colleague = Colleague(tmp_path)
    yield colleague
    colleague.log.close()


async def test_what_somebody_else_types_shows_by_itself_and_says_whose_it_is(tmp_path: Path, robin: Colleague) -> None:
    async with at_step(JobPage.RESULTS, complete_certificate(sign=False), tmp_path, place=ZS) as at:
        robin.do(at, Enter(place=ZS.model_copy(update={"box": "ir_live"}), text=">500"))
        await until(at, lambda: "robin changed DB1, circuit 1 Kitchen sockets" in at.said)
        assert at.screen.job == at.job


async def test_a_box_changed_while_one_types_says_so_and_enter_puts_ones_own_there(
    tmp_path: Path, robin: Colleague
) -> None:
    async with at_step(JobPage.DETAILS, complete_certificate(sign=False), tmp_path, place=NAME) as at:
        await at.type("Mine")
        robin.do(at, enter("client", "name", "Theirs"))
        await until(at, lambda: "Enter keeps yours" in at.text)
        assert "robin put Client: Theirs (was Zoë" in at.said
        await at.press("enter")
        assert at.job.client.name == "Mine"
        assert at.log.trail(at.number)[-1].what.endswith("Mine (was Theirs)")


async def test_escape_leaves_what_the_other_put(tmp_path: Path, robin: Colleague) -> None:
    async with at_step(JobPage.DETAILS, complete_certificate(sign=False), tmp_path, place=NAME) as at:
        await at.type("Mine")
        robin.do(at, enter("client", "name", "Theirs"))
        await until(at, lambda: "Esc leaves theirs" in at.text)
        await at.press("escape")
        assert at.job.client.name == "Theirs"


async def test_a_change_that_came_just_before_ones_own_is_told_with_it(
    tmp_path: Path, robin: Colleague, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(JobSession, "HEARS_EVERY", 3600)
    async with at_step(JobPage.DETAILS, complete_certificate(sign=False), tmp_path, place=NAME) as at:
        await at.type("Mine")
        robin.do(at, enter("client", "name", "Theirs"))
        await at.press("enter")
        assert at.job.client.name == "Mine"
        assert at.said.startswith("Yours is kept. Meanwhile robin had put")


async def test_a_circuit_typed_into_meanwhile_is_not_removed(
    tmp_path: Path, robin: Colleague, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(JobSession, "HEARS_EVERY", 3600)
    place = ZS.model_copy(update={"box": "description"})
    async with at_step(JobPage.CIRCUITS, complete_certificate(sign=False), tmp_path, place=place) as at:
        await at.press("ctrl+r")
        robin.do(at, Enter(place=ZS, text="0.52"))
        await at.press("y")
        assert "changed since you looked" in at.said
        assert at.screen.job == at.job
        assert at.job.boards[0].circuits[0].zs.typed == "0.52"


async def test_a_job_changed_meanwhile_is_not_signed_unread(
    tmp_path: Path, robin: Colleague, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(JobSession, "HEARS_EVERY", 3600)
    async with at_step(JobPage.ISSUE, complete_minor_works(sign=False), tmp_path) as at:
        await at.press("enter")
        await at.type(INSPECTOR)
        robin.do(at, RaiseSnag(what="Lid missing", by="robin", on=ON))
        await at.press("ctrl+o")
        assert "changed since you looked" in at.said
        assert at.job.signatures == ()


async def test_undo_and_redo_step_through_ones_own_edits_and_say_what_they_did(tmp_path: Path) -> None:
    async with at_step(JobPage.RESULTS, complete_certificate(sign=False), tmp_path, place=ZS) as at:
        await at.type("0.52", "enter")
        await at.type("1.20", "enter")
        await at.press("ctrl+u", "ctrl+u")
        assert at.job.boards == complete_certificate(sign=False).boards
        assert at.said.startswith("Undone: DB1, circuit 1 Kitchen sockets, Measured Zs: 0.52 (was 0.49)")
        assert at.box == "zs"
        await at.press("ctrl+u")
        assert "nothing of yours to undo" in at.said
        await at.press("ctrl+v")
        assert at.job.boards[0].circuits[0].zs.typed == "0.52"
        assert at.said.startswith("Done again")


async def test_the_trail_lists_who_did_what_and_goes_to_its_place(tmp_path: Path, robin: Colleague) -> None:
    async with at_step(JobPage.DETAILS, complete_certificate(sign=False), tmp_path, place=NAME) as at:
        robin.do(at, Enter(place=ZS, text="0.52"))
        robin.do(at, AddCircuit(board="b1"))
        await at.press("ctrl+w")
        assert isinstance(at.app.screen, TrailScreen)
        first, second, third = (at.text.index(words) for words in ("Circuit added", "0.52 (was 0.49)", "Begun"))
        assert first < second < third
        await at.press("enter")
        assert "not about one box" in at.said
        await at.press("down", "enter")
        assert step_on(at.app) is JobPage.RESULTS
        assert at.box == "zs"
        robin.do(at, Fill(entries=(Enter(place=NAME, text="A"), Enter(place=ZS, text="0.53"))))
        await at.press("ctrl+w", "enter")
        assert step_on(at.app) is JobPage.DETAILS


async def test_a_text_the_disk_did_not_take_stays_open_and_is_saved_as_soon_as_it_can_be(tmp_path: Path) -> None:
    async with at_step(JobPage.DETAILS, complete_certificate(sign=False), tmp_path, place=NAME) as at:
        soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
        resource.setrlimit(resource.RLIMIT_FSIZE, (0, hard))
        try:
            await at.type("Hetty Quill", "enter")
            assert at.said.startswith("✗ Not saved.")
            assert "Hetty Quill" in at.text
        finally:
            resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))
        await until(at, lambda: "Saved now" in at.said)
        assert at.job.client.name == "Hetty Quill"


async def test_a_snag_the_disk_did_not_take_is_raised_as_soon_as_it_can_be(tmp_path: Path) -> None:
    async with at_step(JobPage.RAISED, complete_minor_works(sign=False), tmp_path) as at:
        await at.press("r")
        await at.type("Lid missing")
        soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
        resource.setrlimit(resource.RLIMIT_FSIZE, (0, hard))
        try:
            await at.press("ctrl+o")
            assert at.said.startswith("✗ Not saved.")
        finally:
            resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))
        await until(at, lambda: len(at.job.snags) == 1)
        assert at.job.snags[0].what == "Lid missing"


async def test_the_ready_lists_and_a_wrong_letter_find_the_job(tmp_path: Path, robin: Colleague) -> None:
    async with at_step(JobPage.DETAILS, complete_certificate(), tmp_path) as at:
        robin.log.create(complete_minor_works(sign=False), who="robin", at=AT)
        await at.press("escape", "ctrl+f")
        assert isinstance(at.app.screen, FindScreen)
        assert ("A-0001" in at.text, "A-0002" in at.text) == (True, True)
        await at.press("f5")
        assert ("A-0001" in at.text, "A-0002" in at.text, "list: yours" in at.text) == (True, False, True)
        await at.press("f5")
        assert "No job is in this list: with open snags" in at.text
        await at.press("f5", "f5", "f5", "f5", "f5")
        await at.type("fairwether")
        assert "Nothing holds that as typed; shown is what holds: fairweather" in at.said
        assert "A-0002" in at.text
