"""`exchange`: an office and its laptops meet, by a folder that both see or over ssh."""

import sys
from datetime import datetime
from pathlib import Path

from domain.job.seal_key import fingerprint_asked
from domain.laptops.bundle import Exchanged
from domain.words import counted
from tui.commands.command import (
    JSON,
    NO,
    Command,
    CommandAnswer,
    CommandOption,
    Environment,
    TypedArgument,
    UnusableError,
)
from tui.commands.firm_words import exchanged_in_words, laptops_of
from tui.commands.ssh_line import line_to
from tui.services import Services

_TRUST = CommandOption(
    "--trust", "the fingerprint of a new key of the other side, as they read it to you", "FINGERPRINT"
)
_LINE = CommandOption("--line", "answer over standard input and output, for a laptop that called by ssh")
_HOST = "ssh://"


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    """Exchange, and say what came of it."""
    trust = fingerprint_asked(typed.value(_TRUST.name)) if typed.has(_TRUST.name) else ""
    if typed.has(_TRUST.name) and not trust:
        raise UnusableError("--trust takes a fingerprint of 40 letters and figures, as ohmfolio keys shows it")
    if typed.has(_LINE.name) == bool(typed.words):
        raise UnusableError("Say where: ohmfolio exchange FOLDER, or ohmfolio exchange HOST")
    place, at = environment.place(), datetime.now().astimezone()
    with environment.open_services(place) as services:
        firm, laptops = environment.firm(place), laptops_of(services)
        if typed.has(_LINE.name):
            firm.by_line(services.log, sys.stdin.buffer, sys.stdout.buffer, at=at, calls=False, trust=trust)
            return CommandAnswer(None, "")
        named, before = typed.words[0], laptops.unheard().edits
        folder = Path(named).expanduser()
        is_folder = "/" in named and not named.startswith(_HOST)
        if is_folder:
            met = firm.in_folder(services.log, folder.absolute(), at=at, trust=trust)
        else:
            if folder.exists():
                raise UnusableError(
                    f"{named} may be a host or what lies here: ohmfolio exchange ./{named}, or ohmfolio exchange {_HOST}{named}"
                )
            met = _called(services, environment, named, at, trust)
        said, unheard = exchanged_in_words(met), laptops.unheard()
    if heard := max(0, before - unheard.edits):
        said.append(f"✓ {counted(heard, 'edit')} of this laptop {'is' if heard == 1 else 'are'} at the office now")
    if is_folder:
        said.append(f"What the others lack lies in {folder}; carry it to them, or let it be synchronised")
        if unheard.edits:
            is_not = "is" if unheard.edits == 1 else "are"
            said.append(f"{counted(unheard.edits, 'edit')} {is_not} not at the office until it has read that")
    is_no = any(each.is_gap or each.put_back for each in met)
    return CommandAnswer([each._asdict() for each in met], "\n".join(said), NO if is_no else 0)


def _called(services: Services, environment: Environment, host: str, at: datetime, trust: str) -> list[Exchanged]:
    """Call the office by ssh, twice where the first bundle did not fit what it knew."""
    if host.startswith("-"):
        raise UnusableError(f"{host!r} is no host")
    met: list[Exchanged] = []
    for _ in range(2):
        with line_to(host) as line:
            met += environment.firm(environment.place()).by_line(services.log, *line, at=at, calls=True, trust=trust)
        if not laptops_of(services).unheard().edits:
            break
    return met


COMMAND = Command(
    name="exchange",
    run=run,
    words="[FOLDER|HOST]",
    most=1,
    options=(_TRUST, _LINE, JSON),
    explains=(
        "FOLDER, which has a / in it, is one that both sides see: a stick, or a folder kept the same by any program. Each side takes in what lies "
        "there for it and leaves what the others lack; run it on the one, on the other, and on the one again. HOST is that of "
        "the office, as ssh knows it: ssh HOST ohmfolio exchange --line answers there, and ohmfolio is in that account's path.\n"
        "A bundle is taken in whole or not at all; what came before is passed over, so that the same once more is always safe, and "
        "after a line that was cut goes on where it broke. "
        "Bundles are signed with the key of their log. Exit 1: one before it is still under way; exchange again."
    ),
)
