"""Words and options, told apart."""

import re

import pytest

from tui.commands.command import Command, CommandAnswer, CommandOption, Environment, TypedArgument, UnusableError
from tui.commands.parsing import HelpAskedError, parse


def _run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    raise AssertionError("parsing runs nothing")


ISSUE = Command(
    "issue",
    _run,
    words="JOB",
    least=1,
    most=1,
    options=(CommandOption("--to", "", "FOLDER"), CommandOption("--json", "")),
)


@pytest.mark.parametrize(
    "typed",
    [["7", "--to", "out", "--json"], ["--json", "--to=out", "7"], ["--to", "out", "--json", "--", "7"]],
)
def test_options_may_stand_anywhere(typed: list[str]) -> None:
    told = parse(ISSUE, typed)
    assert told.words == ("7",)
    assert told.value("--to") == "out"
    assert told.has("--json")


def test_after_two_dashes_all_are_words() -> None:
    assert parse(ISSUE, ["--", "--to"]).words == ("--to",)


@pytest.mark.parametrize(
    ("typed", "complaint"),
    [
        ([], "needs JOB"),
        (["7", "8"], "cannot use '8'"),
        (["7", "--force"], "No such option '--force'"),
        (["7", "--jsn"], "Did you mean '--json'?"),
        (["7", "--to"], "Option '--to' requires an argument"),
        (["7", "--to="], "--to needs a value"),
        (["7", "--json=yes"], "Option '--json' does not take a value"),
        (["7", "--to", "a", "--to", "b"], "--to is given twice"),
    ],
)
def test_what_cannot_be_used_is_said(typed: list[str], complaint: str) -> None:
    with pytest.raises(UnusableError, match=re.escape(complaint)):
        parse(ISSUE, typed)


@pytest.mark.parametrize("typed", [["7", "--help"], ["-h"], ["--help", "--to", "out"]])
def test_help_is_asked_for_whatever_else_is_typed(typed: list[str]) -> None:
    with pytest.raises(HelpAskedError):
        parse(ISSUE, typed)


def test_a_value_in_other_capitals_is_the_one_meant() -> None:
    found = Command("find", _run, options=(CommandOption("--form", "", "FORM", ("EIC", "EICR")),))
    assert parse(found, ["--form", "eicr"]).value("--form") == "EICR"
    with pytest.raises(UnusableError, match="'pir' is not one of"):
        parse(found, ["--form", "pir"])
