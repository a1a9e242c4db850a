"""What the program stands on is listed with its licence, from what is installed."""

import tomllib
from importlib.metadata import version

from tests.tui.commands.command_line import ROOT
from tui.commands.licences import libraries


def test_every_library_that_the_program_asks_for_is_listed_with_its_version_and_a_licence() -> None:
    listed = {each.name.casefold().replace("_", "-"): each for each in libraries()}
    asked = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]["dependencies"]
    names = [each.split("[")[0].split("=")[0].split(">")[0].split("<")[0] for each in asked]
    assert [name for name in names if name not in listed] == []
    assert listed["pydantic"].version == version("pydantic")
    assert "pydantic-core" in listed, "what a library asks for in its turn"
    assert [each.name for each in listed.values() if each.licence.startswith("not said")] == []
    assert not listed.keys() & {"pytest", "ruff", "hypothesis"}
