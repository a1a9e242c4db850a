"""Help, the man page and what shells complete: all from the one table of commands."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tests.tui.commands.command_line import ROOT, RUN, ohmfolio, sentence_of
from tui.commands.command import UnusableError
from tui.commands.completing import HINTS, script_for
from tui.commands.help_text import WIDTH, help_on, help_on_all, man_page
from tui.commands.registry import SUMMARIES, command_named

PYTHON = sys.executable


@pytest.mark.parametrize("name", SUMMARIES)
def test_every_command_is_of_its_name_and_its_help_fits_the_terminal(name: str) -> None:
    command = command_named(name)
    told = help_on(command)
    assert command.name == name
    assert all(len(line) <= WIDTH for line in told.splitlines())
    assert all(option.name in told for option in command.every_option)


def test_the_list_says_each_command_on_a_line_of_its_own() -> None:
    told = help_on_all()
    assert all(len(line) <= WIDTH for line in told.splitlines())
    assert {line.split()[0] for line in told.splitlines() if line.startswith("  ")} == set(SUMMARIES)


def test_a_name_that_is_nearly_one_is_answered_with_the_one_meant() -> None:
    with pytest.raises(UnusableError, match="did you mean verify"):
        command_named("verfy")


def test_developers_are_told_the_commands_that_there_are() -> None:
    listed = [f"{name:<11} {says}" for name, says in SUMMARIES.items()]
    assert "\n".join(listed) in (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")


def test_the_man_page_names_every_command_and_option() -> None:
    page = man_page()
    for name in SUMMARIES:
        assert f".SS {name.replace('-', chr(92) + '-')}\n" in page
        for option in command_named(name).options:
            assert option.name.replace("-", chr(92) + "-") in page


@pytest.mark.skipif(not shutil.which("groff"), reason="groff is not here to set the man page")
def test_the_man_page_is_set_without_a_warning() -> None:
    done = subprocess.run(
        ["groff", "-man", "-ww", "-z", "-Kutf8", "-Tutf8"],
        input=man_page(),
        capture_output=True,
        text=True,
        check=False,
    )
    assert (done.returncode, done.stderr) == (0, "")


@pytest.mark.skipif(not shutil.which("man"), reason="man is not here to show the man page")
def test_man_shows_the_page(tmp_path: Path) -> None:
    page = tmp_path / "ohmfolio.1"
    page.write_text(man_page(), encoding="utf-8")
    environment = {"PATH": os.environ["PATH"], "LANG": "C.UTF-8", "MANWIDTH": "80", "MANPAGER": "cat"}
    shown = subprocess.run(
        ["man", "-l", "--warnings", str(page)], env=environment, capture_output=True, text=True, check=False
    )
    assert (shown.returncode, shown.stderr) == (0, "")
    assert "may be issued" in shown.stdout


@pytest.fixture
def shell(tmp_path: Path) -> dict[str, str]:
    """An environment in which `ohmfolio` is this program, whatever is installed."""
    program = tmp_path / "ohmfolio"
    program.write_text(f"#!/bin/sh\nPYTHONPATH={ROOT} exec {PYTHON} -c '{RUN}' \"$@\"\n", encoding="utf-8")
    program.chmod(0o755)
    for name in HINTS:
        (tmp_path / f"complete.{name}").write_text(script_for(name), encoding="utf-8")
    return {"PATH": f"{tmp_path}:{os.environ['PATH']}", "HOME": str(tmp_path), "LANG": "C.UTF-8"}


def completed(shell: dict[str, str], *program: str) -> list[str]:
    done = subprocess.run(program, env=shell, cwd=shell["HOME"], capture_output=True, text=True, check=True)
    assert done.stderr == ""
    return done.stdout.split()


@pytest.mark.skipif(not shutil.which("bash"), reason="bash is not here to complete")
@pytest.mark.parametrize(
    ("typed", "offered"),
    [
        ("ver", ["verify"]),
        ("find --fo", ["--form"]),
        ("find --form EICR --st", ["--state"]),
        ("find --form M", ["MEIWC"]),
        ("help re", ["replace", "read-in", "restore"]),
        ("completion f", ["fish"]),
    ],
)
def test_bash_completes(shell: dict[str, str], typed: str, offered: list[str]) -> None:
    words = " ".join(["ohmfolio", *typed.split()])
    ask = (
        f"source complete.bash; complete -p ohmfolio >/dev/null; COMP_WORDS=({words}); "
        "COMP_CWORD=$((${#COMP_WORDS[@]} - 1)); _ohmfolio_completion ohmfolio; echo ${COMPREPLY[@]}"
    )
    assert completed(shell, "bash", "--norc", "-c", ask) == offered


@pytest.mark.skipif(not shutil.which("zsh"), reason="zsh is not here to complete")
def test_zsh_loads_it_and_is_answered(shell: dict[str, str]) -> None:
    assert completed(
        shell, "zsh", "-f", "-c", "autoload -U compinit; compinit -u; source complete.zsh; echo $_comps[ohmfolio]"
    ) == ["_ohmfolio_completion"]
    asked = "COMP_WORDS='ohmfolio ver' COMP_CWORD=1 _OHMFOLIO_COMPLETE=zsh_complete ohmfolio"
    assert completed(shell, "zsh", "-f", "-c", asked)[:2] == ["plain", "verify"]


@pytest.mark.skipif(not shutil.which("fish"), reason="fish is not here to complete")
def test_fish_completes(shell: dict[str, str]) -> None:
    assert (
        completed(shell, "fish", "--no-config", "-c", "source complete.fish; complete -C 'ohmfolio ver'")[0] == "verify"
    )


def test_another_shell_is_refused(tmp_path: Path) -> None:
    assert "not for 'tcsh'" in sentence_of(ohmfolio("completion", "tcsh", home=tmp_path))
