"""`restore`: back to a copy of the log."""

import sys
from datetime import datetime
from pathlib import Path

from domain.job.seal_key import in_groups
from domain.log.upkeep import Restored
from tui.commands.command import JSON, Command, CommandAnswer, Environment, TypedArgument
from tui.commands.progress import Progress
from tui.commands.tend import proof_in_words


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    """Put a copy in the place of the log, once it is proved; what was there is kept aside."""
    place = environment.place()
    copy = str(Path(typed.words[0]).expanduser().absolute())
    # A script hears one sentence of a copy that is refused, and nothing on the way.
    progress = Progress("Jobs proved", say=None if sys.stderr.isatty() else lambda _: None)
    try:
        restored = environment.folder_upkeep(place).restore(copy, at=datetime.now().astimezone(), told=progress)
    finally:
        progress.end()
    environment.journal().warn(f"restored {place} from {copy}")
    return CommandAnswer({"home": str(place), **restored.model_dump(mode="json")}, f"{place}: {_as_text(restored)}")


def _as_text(restored: Restored) -> str:
    proved = "The records of the copy were proved, and it" if restored.missing else "The copy was proved whole and"
    said = [proof_in_words(restored.proof), f"✓ {proved} is now the log"]
    if restored.made_anew:
        said.append(f"! In the copy: {restored.made_anew} It was made anew from the jobs, which are proved")
    if restored.aside:
        said.append(f"The log that was here is kept in {restored.aside}; OHMFOLIO_HOME opens it there")
    if restored.aside and restored.before is None:
        said.append("! It could not be read, so what it issued after the copy was made is not known")
    if restored.only_there:
        said.append(f"! Issued there and not in this copy: {', '.join(restored.only_there)}")
    if restored.missing:
        said.append(
            f"! No paper that is the one issued was found for {', '.join(restored.missing)}; their records stand"
        )
    if restored.key_missing:
        how = (
            "ohmfolio keys unlock takes it out of the copy"
            if restored.key_is_locked
            else "put seal.key back, or begin another with ohmfolio keys lost"
        )
        said.append(f"! The key papers are sealed with, {in_groups(restored.key_missing)}, is not here: {how}")
    said.append(f"New jobs are numbered from {restored.prefix}-0001, so that no number is given twice")
    return "\n".join(said)


COMMAND = Command(
    name="restore",
    run=run,
    words="FILE",
    least=1,
    most=1,
    options=(JSON,),
    explains=(
        "The copy is proved first: file, drafts, every issued record and the chain over them. Nobody may have the log open.\n"
        "Papers come from the copy, or from the log that was here where they are the very ones that were issued."
    ),
)
