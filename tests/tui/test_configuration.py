"""What may be set, where it is found, and what is said of a setting that cannot be used."""

import re
from pathlib import Path

import pytest

from tests.tui.commands.command_line import Said, ohmfolio, sentence_of
from tui.configuration import ConfigurationError, configuration, configuration_files
from tui.setting_keys import COPIES, DRIVER, GLYPHS, HOME

ROOT = Path(__file__).parents[2]


@pytest.fixture(autouse=True)
def _folders(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    for name in ("config", "data"):
        monkeypatch.setenv(f"XDG_{name.upper()}_HOME", str(tmp_path / name))
    monkeypatch.setenv("XDG_CONFIG_DIRS", str(tmp_path / "computer"))


def keep(text: str, of: str = "config") -> Path:
    path = next(path for path in configuration_files() if path.parents[1].name == of)
    path.parent.mkdir(parents=True)
    path.write_text(text, encoding="utf-8")
    return path


def test_without_a_word_the_usual_holds(tmp_path: Path) -> None:
    held = configuration({})
    assert (held.home, held.copies, held[GLYPHS].value, held.is_stock) == (tmp_path / "data/ohmfolio", 7, "auto", False)
    assert {held[key].origin for key in (HOME, COPIES, GLYPHS, DRIVER)} == {"usual"}
    assert held.home_of_this_run is None


def test_the_environment_stands_above_the_persons_file_and_that_above_the_computers() -> None:
    computers = keep('home = "/srv/log"\ncopies = 3\nglyphs = "ascii"\n', "computer")
    own = keep("copies = 14\nglyphs = 'all'\n")
    held = configuration({"OHMFOLIO_GLYPHS": "ASCII", "OHMFOLIO_DRIVER": ""})
    assert [(held[key].value, held[key].origin) for key in (HOME, COPIES, GLYPHS, DRIVER)] == [
        ("/srv/log", str(computers)),
        ("14", str(own)),
        ("ascii", "environment OHMFOLIO_GLYPHS"),
        ("own", "usual"),
    ]
    assert held.home_of_this_run is None


def test_the_folder_of_the_log_is_whole_whatever_way_it_is_named(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.chdir(tmp_path)
    assert configuration({"OHMFOLIO_HOME": "jobs"}).home == tmp_path / "jobs"
    held = configuration({"OHMFOLIO_HOME": "~/jobs"})
    assert held.home == held.home_of_this_run == Path("~/jobs").expanduser()


@pytest.mark.parametrize(
    ("text", "complaint"),
    [
        ("homes = '/srv'", "'homes', which is no setting; did you mean home"),
        ("colour = 1", "'colour', which is no setting; there are home, log, letters, copies, glyphs, driver"),
        ("copies = -1", "copies takes a number from 0 to 9999; not -1"),
        ("copies = true", "copies takes a number from 0 to 9999; not True"),
        ("driver = 'mine'", "driver takes own or stock; not 'mine'"),
        ("home = 'jobs'", "home takes a whole path, from / or ~; not 'jobs'"),
        ("home = ['/srv']", "home takes a whole path"),
        ("copies 7", "is no TOML"),
        ("[office]\nhome = '/srv'", "'office', which is no setting"),
    ],
)
def test_a_file_that_cannot_be_used_is_named_with_what_it_may_hold(text: str, complaint: str) -> None:
    path = keep(text)
    with pytest.raises(ConfigurationError, match=re.escape(complaint)) as refused:
        configuration({})
    assert str(path) in str(refused.value)


@pytest.mark.parametrize("variable", ["OHMFOLIO_HOEM", "OHMFOLIO_COPIES"])
def test_a_variable_that_cannot_be_used_is_named(variable: str) -> None:
    with pytest.raises(ConfigurationError, match=variable):
        configuration({variable: "many"})


def test_config_tells_what_holds_and_from_where(tmp_path: Path) -> None:
    own = keep("copies = 14\n")
    said = ask("config", "--json", tmp_path=tmp_path)
    told = {each["key"]: (each["value"], each["origin"]) for each in said.value["settings"]}
    assert said.code == 0
    assert told["copies"] == ("14", str(own))
    assert told["home"] == (str(tmp_path / "log"), "environment OHMFOLIO_HOME")
    assert {"path": str(own), "exists": True} in said.value["files"]
    assert str(own) in ask("config", tmp_path=tmp_path).out


def test_a_wrong_file_stops_what_hangs_on_it_in_one_sentence_and_no_help(tmp_path: Path) -> None:
    keep("copies = 'many'\n")
    assert "copies takes a number" in sentence_of(ask("config", "--json", tmp_path=tmp_path))
    assert "copies takes a number" in sentence_of(ask("find", tmp_path=tmp_path))
    assert ask("help", tmp_path=tmp_path).code == 0
    assert not (tmp_path / "log").exists()


def test_nothing_else_names_a_variable_of_the_program_to_read_it() -> None:
    named = {
        str(path.relative_to(ROOT)): found
        for room in ("tui", "storage", "domain")
        for path in (ROOT / room).rglob("*.py")
        if (found := re.findall(r"[\"']OHMFOLIO_\w*[\"']", path.read_text(encoding="utf-8")))
    }
    # Processes of this program are handed on what was set; none of it is read there.
    assert named == {"tui/setting_keys.py": ['"OHMFOLIO_"'], "storage/child_process.py": ['"OHMFOLIO_"']}


def ask(*typed: str, tmp_path: Path) -> Said:
    folders = {"XDG_CONFIG_HOME": "config", "XDG_DATA_HOME": "data", "XDG_CONFIG_DIRS": "computer"}
    return ohmfolio(*typed, home=tmp_path / "log", **{name: str(tmp_path / folder) for name, folder in folders.items()})
