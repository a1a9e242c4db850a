"""What the README shows and tells is what the program does: its pictures, and every key of the first certificate."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from domain.job.job_number import prefix_offered
from storage.sqlite_job_log import SqliteJobLog
from tests.pictures.drawing import FOLDER, PICTURES, drawn, lines_of
from tests.tui.terminal import KEYS, Terminal
from tui.user_name import account_name

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
NAMED = {"Enter": "enter", "Tab": "tab", "PgDn": "pagedown"} | {f"F{number}": f"f{number}" for number in range(1, 13)}


async def test_the_pictures_show_the_screens_as_they_are() -> None:
    kept = {name: lines_of((FOLDER / f"{name}.svg").read_text(encoding="utf-8")) for name in PICTURES}
    shown = {name: lines_of(svg) for name, svg in (await drawn()).items()}
    assert all(len(lines) > 15 for lines in shown.values())
    assert shown == kept, "python -m tests.pictures draws them anew"


@pytest.mark.parametrize("name", PICTURES)
def test_a_picture_is_in_the_readme_and_fetches_nothing(name: str) -> None:
    assert f"(demo/pictures/{name}.svg)" in README
    assert re.findall(r"(?:href|src|url\()=?[\"']?(https?:[^\"')]*)", (FOLDER / f"{name}.svg").read_text()) == []


def walk() -> Iterator[list[str]]:
    """The keys of each line of the first certificate, as bytes for a terminal; words after # are for people."""
    told = re.search(r"```keys\n(.*?)```", README, re.DOTALL)
    assert told
    for line in told[1].splitlines():
        keys: list[str] = []
        for part in re.split(r"  +", line.partition("#")[0].strip()):
            words = part.split(" ")
            named = [word for word in words if word in NAMED or word.startswith("Ctrl+")]
            text = " ".join(words[: len(words) - len(named)])
            assert words[len(words) - len(named) :] == named, line
            keys += [text] if text else []
            keys += [KEYS[NAMED.get(name, name.lower())] for name in named]
        yield keys


def test_the_first_certificate_comes_out_by_the_keys_that_are_told(tmp_path: Path) -> None:
    with Terminal(home=tmp_path, OHMFOLIO_LETTERS="") as terminal:
        terminal.until("Which letters shall the numbers of your jobs begin with?")
        for keys in walk():
            terminal.send("".join(keys))
            terminal.listen()
        number = f"{prefix_offered(account_name())}-0001"
        terminal.until(f"{number} issued")
    log = SqliteJobLog.open(tmp_path)
    issued = log.issued(number)
    log.close()
    assert issued
    assert issued.pack.outcome == "complies"
    assert (tmp_path / f"packs/{number}-MEIWC/{number}-MEIWC.pdf").exists()
