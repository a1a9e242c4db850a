"""`join`: the log of a laptop, begun with the file that the office made for it."""

from datetime import datetime
from pathlib import Path

from tui.commands.command import JSON, Command, CommandAnswer, Environment, TypedArgument, UnusableError


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    """Begin the log of a laptop."""
    place, first = environment.place(), Path(typed.words[0]).expanduser().absolute()
    if not first.is_file():
        raise UnusableError(f"There is no file {first}")
    station = environment.firm(place).join(first, at=datetime.now().astimezone())
    said = [
        f"✓ {place} is the log of {station.person or 'a laptop'} now; new jobs are numbered from {station.name}-0001",
        "ohmfolio take-out NUMBER takes a job out; ohmfolio exchange FOLDER, or HOST, meets the office",
        f"Delete {first}: it holds the whole log, and serves one laptop",
    ]
    return CommandAnswer({"home": str(place), "letters": station.name, "person": station.person}, "\n".join(said))


COMMAND = Command(
    name="join",
    run=run,
    words="FILE",
    least=1,
    most=1,
    options=(JSON,),
    explains=(
        "The file is proved as any copy is, and becomes the log of this laptop, with a key of its own for its papers. There may "
        "be no log here yet, or one without jobs. Exit 2: it cannot be used, and nothing was changed."
    ),
)
