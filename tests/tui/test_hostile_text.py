"""Whatever somebody put into a log, a login or a file name, no terminal obeys it: on every screen and in every answer."""

import shutil
from contextlib import closing
from dataclasses import replace
from pathlib import Path

from domain.editing.commands import Sign
from domain.job.signature import roles_for
from storage.driver import sqlite3
from storage.log_file import FILE_NAME
from storage.sqlite_job_log import SqliteJobLog
from tests.builders import AT, INSPECTOR, complete_minor_works
from tests.storage.issuing import issued_in
from tests.tui.commands.command_line import ohmfolio
from tests.tui.screens.services import services_in
from tui.app import OhmfolioApp
from tui.router import screen_for
from tui.terminal.safe_text import safe_text

OBEYED = [chr(code) for code in (*range(1, 0x20), *range(0x7F, 0xA0), *range(0x202A, 0x202F), *range(0x2066, 0x206A))]
HOSTILE = "".join(OBEYED) + "\x1b]0;title\x07\x1b]52;c;cm0gLXJm\x07\x1b[6n\x9b31mred"
KEPT_AS_DOCUMENTS = {"body", "command", "begun", "changes", "sql"}
NAMES_OF_THE_PROGRAM = {
    "form_set",
    "state",
    "outcome",
    "number",
    "kind",
    "topic",
    "op",
    "prefix",
    "id",
    "replaces",
    "name",
}


def poisoned(home: Path) -> list[str]:
    """Append harm to every text in the log that is no document, as an earlier program or another might have; the columns."""
    done: list[str] = []
    with closing(sqlite3.connect(home / FILE_NAME, isolation_level=None)) as log:
        guards = log.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'").fetchall()
        for name, _ in guards:
            log.execute(f"DROP TRIGGER {name}")
        tables = ("job", "edit", "hand", "issued", "left_off", "note", "register", "register_now")
        for table in tables:
            for _, column, kind, *_ in log.execute(f"PRAGMA table_info ({table})").fetchall():
                if kind == "TEXT" and column not in KEPT_AS_DOCUMENTS | NAMES_OF_THE_PROGRAM:
                    log.execute(f"UPDATE OR IGNORE {table} SET {column} = {column} || ?", (HOSTILE,))
                    done.append(f"{table}.{column}")
        for _, made in guards:
            log.execute(made)
    return done


def filled(home: Path) -> None:
    log = SqliteJobLog.open(home)
    issued_in(log)
    number = log.create(complete_minor_works(sign=False), who="tamsin", at=AT).number
    for role in roles_for(log.load(number).form_set):
        log.edit(number, Sign(role=role, name=INSPECTOR, at=AT), who="tamsin", at=AT)
    log.add_note("name", "Tamsin", who=INSPECTOR, at=AT)
    log.close()


def test_no_command_hands_on_what_a_terminal_obeys(tmp_path: Path) -> None:
    home = tmp_path / f"log {HOSTILE.replace('/', '')[:120]}"
    filled(home)
    assert {"job.client", "edit.who", "edit.what", "register_now.title", "note.text"} <= set(poisoned(home))
    shutil.copy(home / FILE_NAME, tmp_path / f"copy{HOSTILE[:90].replace('/', '')}")
    for typed in (
        *(("find",), ("find", "--json"), ("due",), ("due", "--json"), ("check", "A-0002"), ("hand-over", "A-0001")),
        *(("tend",), ("tend", "--json"), ("restore", f"{HOSTILE}"), ("verify", HOSTILE), ("bring-in", HOSTILE)),
        *((HOSTILE,), ("find", HOSTILE), ("check", HOSTILE), ("issue", HOSTILE, "--to", HOSTILE), ("figure", HOSTILE)),
        *(("backup", "--to", str(home / "no" / HOSTILE)), ("config",), ("help", HOSTILE), ("find", "--no" + HOSTILE)),
    ):
        said = ohmfolio(*typed, home=home, LOGNAME=HOSTILE, USER=HOSTILE, TERM="xterm" + HOSTILE)
        shown = said.out + said.error
        assert shown, typed
        assert not set(OBEYED) - {"\n"} & set(shown), typed
        assert "Traceback" not in shown, typed


async def test_no_screen_hands_on_what_a_terminal_obeys(tmp_path: Path) -> None:
    filled(tmp_path / "log")
    poisoned(tmp_path / "log")
    services = replace(services_in(tmp_path), who=f"tamsin{HOSTILE}", packs=tmp_path / HOSTILE)
    app = OhmfolioApp(services, screen_for)
    async with app.run_test(size=(80, 24)) as pilot:
        for keys in (["slash"], ["enter"], ["f4"], ["f8"], ["f9"], ["f10"], ["f1"], ["escape"], ["f5"], ["f6"], ["f7"]):
            await pilot.press(*keys)
            await pilot.pause()
            shown = "".join(segment.text for strip in app.screen._compositor.render_strips() for segment in strip)
            assert shown.strip(), keys
            assert not set(OBEYED) & set(shown), keys
    services.log.close()


def test_the_harm_is_such_that_a_terminal_would_obey_it() -> None:
    assert set(OBEYED) <= set(HOSTILE)
    assert safe_text(HOSTILE, written_out=False) == "]0;title]52;c;cm0gLXJm[6n31mred"
