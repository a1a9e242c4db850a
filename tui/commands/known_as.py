"""`known-as`: who comes through an account that several people share, as a forced command of ssh names them."""

import os
import pwd
import re
import shlex

from domain.value import LINE_MAX, cleaned
from tui.commands.command import Command, CommandAnswer, Environment, TypedArgument, UnusableError
from tui.configuration import Configuration
from tui.setting_keys import SHARED

_FROM_AFAR = ("find", "due", "check", "hand-over", "codes", "figure", "head", "help")
"""What a person may ask for without the screens: commands that answer, and write nothing."""
_LAPTOP = ["exchange", "--line"]
"""And how a laptop calls, whose bundles are signed and examined whatever account they come through."""
_WRITE = {"--to", "--csv", "--ics"}
"""Options of theirs that write a file on this computer."""
_FILE = re.compile(r"(?i)[/\\]|\.json$")


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    """Open the screens, or do what ssh was given, as the person of that name."""
    (name,) = typed.words
    if name != cleaned(name) or not name.strip() or len(name) > LINE_MAX:
        raise UnusableError(f"known-as takes a name on one line, up to {LINE_MAX} letters of plain text")
    _require_shared(environment.configuration())
    return CommandAnswer(None, "", environment.run_as(name, _asked_through_ssh()))


def _require_shared(held: Configuration) -> None:
    try:
        account = pwd.getpwuid(os.geteuid()).pw_name
    except KeyError:
        account = ""
    if not account or held[SHARED].value != account:
        raise UnusableError(
            f"Nobody says here who they are: {account or 'this account'} is not shared ({SHARED.name} in the computer's own settings)"
        )


def _asked_through_ssh() -> list[str]:
    """The words behind `ohmfolio` that ssh was given; none for the screens."""
    try:
        words = shlex.split(os.environ.get("SSH_ORIGINAL_COMMAND", ""))
    except ValueError:
        raise UnusableError("What ssh was given has a quotation mark without its other") from None
    if not words:
        return []
    program, *asked = words
    allowed = program == "ohmfolio" and (not asked or asked[0] in _FROM_AFAR or asked == _LAPTOP)
    writes = any(word.partition("=")[0] in _WRITE for word in asked)
    if not allowed or writes or (asked[:1] == ["check"] and any(map(_FILE.search, asked[1:]))):
        raise UnusableError(
            f"Through this account there is ohmfolio alone, or with {', '.join(_FROM_AFAR)}, and no file of this computer"
        )
    return asked


COMMAND = Command(
    name="known-as",
    run=run,
    words="NAME",
    least=1,
    most=1,
    options=(),
    explains="For ~/.ssh/authorized_keys of an account that several people share, a line a person:\n"
    '  restrict,pty,command="/PATH/TO/ohmfolio known-as hester" ssh-ed25519 AAAA… hester\n'
    'and in the computer\'s own settings, which root alone may write: shared = "ACCOUNT". Who has that key is then hester in every trail, '
    "and nobody becomes another: without a forced command nobody may log in to the account, so give it no password.\n"
    f"Beside the screens that person may ask for ohmfolio {', '.join(_FROM_AFAR)}; ssh HOST ohmfolio find kitchen, say; "
    "and a laptop may call by ohmfolio exchange.",
)
