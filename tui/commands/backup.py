"""`backup`: a copy of the log, made while it is in use."""

import os
from datetime import datetime
from pathlib import Path

from domain.log.upkeep import Copy
from tui.commands.command import JSON, Command, CommandAnswer, Environment, TypedArgument, UnusableError
from tui.commands.tend import counted, proof_in_words

COPIES = "OHMFOLIO_COPIES"
"""How many days' copies are kept beside the log; 0 for none."""
_KEPT = 7


def run(typed: TypedArgument, wiring: Environment) -> CommandAnswer:
    """A full copy in a new file or, where no file is named, the copy of the day beside the log."""
    upkeep = wiring.upkeep(wiring.home())
    if typed.words:
        copy = upkeep.back_up(str(Path(typed.words[0]).expanduser().absolute()))
        return CommandAnswer(copy.model_dump(mode="json"), _as_text(copy))
    if not (keep := copies_kept()):
        raise UnusableError(f"{COPIES} is 0, so no copy of the day is kept; name a file for a full copy")
    copy = upkeep.copy_of_the_day(at=datetime.now().astimezone(), keep=keep)
    if copy is None:
        return CommandAnswer({"path": None}, "Nothing has changed since the last copy of a day")
    return CommandAnswer(copy.model_dump(mode="json"), f"{copy.path}: {proof_in_words(copy.proof)}")


def copies_kept() -> int:
    """How many days' copies are kept."""
    asked = os.environ.get(COPIES, "").strip()
    return int(asked) if asked.isdecimal() and len(asked) < 5 else _KEPT


def _as_text(copy: Copy) -> str:
    said = [f"{copy.path}: {proof_in_words(copy.proof)}", f"✓ Proved whole, with {counted(copy.papers, 'paper')} in it"]
    if copy.missing:
        said.append(f"! Not in it, for the log has lost them: {', '.join(copy.missing)}; see ohmfolio tend")
    return "\n".join(said)


COMMAND = Command(
    name="backup",
    summary="copy the log, papers and all, into a new file; with no file, keep a copy of the day beside the log",
    run=run,
    words="[FILE]",
    most=1,
    options=(JSON,),
    explains=(
        "The log may be in use. Each copy is proved whole before it gets its name. Keep some away from this computer.\n"
        f"The copy of the day is made by itself when the screens are left; {COPIES} says for how many days ({_KEPT} when\n"
        "not set, 0 for none). It holds no papers: those lie beside it and never change. Both are plain SQLite files."
    ),
)
