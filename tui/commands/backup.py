"""`backup`: a copy of the log, made while it is in use."""

from datetime import datetime
from pathlib import Path

from domain.log.upkeep import Copy
from domain.words import counted
from tui.commands.command import (
    JSON,
    Command,
    CommandAnswer,
    CommandOption,
    Environment,
    TypedArgument,
    UnusableError,
)
from tui.commands.tend import proof_in_words
from tui.commands.typed_phrase import new_phrase
from tui.setting_keys import COPIES, JOURNAL

_WITH_KEY = CommandOption("--with-key", "the key of the seal goes into the copy, locked by a phrase that is asked for")


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    """A full copy in a new file or, where no file is named, the copy of the day beside the log."""
    upkeep = environment.folder_upkeep(environment.place())
    if typed.words:
        phrase = new_phrase("that locks the key") if typed.has(_WITH_KEY.name) else ""
        copy = upkeep.back_up(str(Path(typed.words[0]).expanduser().absolute()), phrase=phrase)
        environment.journal().note(f"copied to {copy.path}")
        return CommandAnswer(copy.model_dump(mode="json"), _as_text(copy))
    if typed.has(_WITH_KEY.name):
        raise UnusableError(f"{_WITH_KEY.name} is for a full copy; name a file for it")
    if not (keep := environment.configuration().copies):
        raise UnusableError(f"{COPIES.variable} is 0, so no copy of the day is kept; name a file for a full copy")
    copy = upkeep.copy_of_the_day(at=datetime.now().astimezone(), keep=keep)
    if copy is None:
        return CommandAnswer({"path": None}, "Nothing has changed since the last copy of a day")
    environment.journal().note(f"copy of the day made: {copy.path}")
    return CommandAnswer(copy.model_dump(mode="json"), f"{copy.path}: {proof_in_words(copy.proof)}")


def _as_text(copy: Copy) -> str:
    said = [f"{copy.path}: {proof_in_words(copy.proof)}", f"✓ Proved whole, with {counted(copy.papers, 'paper')} in it"]
    if copy.missing:
        said.append(f"! Not in it, for the log has lost them: {', '.join(copy.missing)}; see ohmfolio tend")
    said.append(
        "✓ The key of the seal is in it, locked by that phrase; without the phrase nobody gets it out again"
        if copy.holds_key
        else f"The key of the seal is left out: keep seal.key elsewhere too, or make the copy with {_WITH_KEY.name}"
    )
    return "\n".join(said)


COMMAND = Command(
    name="backup",
    run=run,
    words="[FILE]",
    most=1,
    options=(_WITH_KEY, JSON),
    explains=(
        "Without a file, a copy of the day is kept beside the log. The log may be in use. Each copy is proved whole before it gets its name. Keep some away from this computer.\n"
        f"The copy of the day is made by itself when the screens are left; {COPIES.variable} says for how many days "
        f"({COPIES.usual} when not set, 0 for none). It holds no papers: those lie beside it and never change. Both are "
        "plain SQLite files.\n"
        "General tools may read log_jobs, log_trail, log_issued, log_documents, log_circuits and log_registers in them, as "
        "in the log itself.\n"
        "Every night, by systemd: two files in ~/.config/systemd/user, then systemctl --user enable --now ohmfolio.timer\n"
        "  ohmfolio.service  [Service]\n"
        "                    Type=oneshot\n"
        "                    ExecStart=/PATH/TO/ohmfolio backup\n"
        "                    ExecStart=/PATH/TO/ohmfolio head\n"
        "                    ExecStart=/PATH/TO/ohmfolio tend\n"
        "  ohmfolio.timer    [Timer]\n"
        "                    OnCalendar=daily\n"
        "                    Persistent=true\n"
        "                    [Install]\n"
        "                    WantedBy=timers.target\n"
        f"What they print is kept by journalctl --user -u ohmfolio; {JOURNAL.variable}=syslog has each of them leave a line too."
    ),
)
