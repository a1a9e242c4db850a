"""Keeping the log and carrying jobs: each task comes to a command, is done beside the screens, and says what that said."""

from datetime import date
from pathlib import Path

import pytest
from textual.pilot import Pilot

from domain.log.job_log import Query
from storage.upkeep.backing_up import back_up
from tests.builders import AT, INSPECTOR, complete_minor_works
from tests.tui.screens.services import app_in, services_in
from tests.tui.screens.shown import text_of
from tui.app import OhmfolioApp
from tui.commands.parsing import parse
from tui.commands.registry import command_named
from tui.screens.keeping_tasks import KEEPING_TASKS, KeepingTask, Offer
from tui.tasks import OPEN_AGAIN

pytestmark = pytest.mark.usefixtures("processes_part")

FILLED = {
    "file": "/tmp/some file",
    "phrase": "seven wet herons",
    "again": "seven wet herons",
    "jobs": "a-0007",
    "number": "a-0007",
    "columns": "number=Circuit",
    "by": "",
    "save": "ours",
    "board": "DB1",
    "replace": "yes",
    "since": "2026-11-25",
    "anew": "yes",
    "mend": "yes",
}


@pytest.mark.parametrize("task", [each for each in KEEPING_TASKS if not each.leads_to], ids=lambda task: task.title)
@pytest.mark.parametrize("answers", ["as put forward", "all answered"])
def test_whatever_is_answered_comes_to_a_command_that_can_be_done(task: KeepingTask, answers: str) -> None:
    lines = task.lines(Offer(date(2026, 11, 30), Path("/home/packs"), "A-0007", {}))
    typed = {line.name: FILLED[line.name] if answers == "all answered" or line.must else line.text for line in lines}
    first, *rest = task.task(typed).typed
    parse(command_named(first), rest)


@pytest.mark.parametrize(
    ("asked", "which"),
    [
        ("a-0007", ("A-0007",)),
        ("a7", ("A-0007",)),
        ("all", ("--all",)),
        ("Pepperpot Close 3", ("--find", "Pepperpot Close 3")),
        ("snags:open", ("--find", "snags:open")),
    ],
)
def test_jobs_to_hand_over_are_named_by_number_by_words_or_all(asked: str, which: tuple[str, ...]) -> None:
    task = next(task for task in KEEPING_TASKS if task.letter == "h")
    assert task.task({"jobs": asked, "file": "/tmp/jobs.json"}).typed == ("hand-over", "--to", "/tmp/jobs.json", *which)


def test_a_phrase_goes_in_unseen_and_not_among_the_words_of_the_command() -> None:
    task = KEEPING_TASKS[0].task(FILLED)
    assert task.given == "seven wet herons\nseven wet herons\n"
    assert not any("herons" in word for word in task.typed)


async def ended(app: OhmfolioApp, pilot: Pilot[None]) -> None:
    """Wait for the command, not for a time."""
    assert app.tasks.command
    app.tasks.command.wait()
    app.tasks.look()
    await pilot.pause()


async def test_a_copy_is_gone_back_to_and_opened_again_by_keys_alone(tmp_path: Path) -> None:
    app, copy = app_in(tmp_path, complete_minor_works()), tmp_path / "copy.ohmfolio"
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f7", "b", *str(tmp_path / "none.json"), "enter")
        await ended(app, pilot)
        assert "There is no file" in text_of(app)
        assert "Bring in jobs: not done" in text_of(app)
        back_up(tmp_path / "log", copy)
        app.services.log.create(complete_minor_works(), who=INSPECTOR, at=AT)
        await pilot.press("g", "ctrl+u", *str(copy), "enter", "y")
        await ended(app, pilot)
        assert "is now the log" in text_of(app)
        await pilot.press("enter")
    assert app.return_code == OPEN_AGAIN
    with_one = services_in(tmp_path).log
    assert [line.number for line in with_one.find(Query())] == ["A-0001"]
    with_one.close()
