"""`move`: the log taken whole to a server, or back into a folder."""

from datetime import datetime
from pathlib import Path

from tui.commands.command import JSON, Command, CommandAnswer, CommandOption, Environment, TypedArgument, UnusableError
from tui.commands.tend import proof_in_words
from tui.configuration import configuration_files
from tui.log_place import LogPlace, is_server
from tui.setting_keys import HOME, LOG

_TO = CommandOption("--to", "where it is to be: postgresql://PERSON@HOST/DATABASE, or a folder", "PLACE")


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    """Move the log, and say what has to be set for people to find it."""
    if not (named := typed.value(_TO.name)):
        raise UnusableError("Say where the log is to be: ohmfolio move --to PLACE")
    place = environment.place()
    if "://" in named and not is_server(named):
        raise UnusableError("The address of a job log on a server begins with postgresql://.")
    to = LogPlace(place.home, named) if is_server(named) else LogPlace(Path(named).expanduser().absolute())
    moved = environment.move(place, to, at=datetime.now().astimezone())
    key, own = (LOG if to.server else HOME).name, configuration_files()[-1]
    setting = f'{key} = "{to}"'
    said = [
        f"{to}: {proof_in_words(moved.proof)}",
        "✓ Every row, paper and trail arrived as it was, and the chain holds",
        f"The log at {place} says where it went, and is not used any more. To find the new one, everybody sets",
        f"  {setting}",
        f"in {own}; ohmfolio config shows what holds",
    ]
    value = {"from": str(place), "to": str(to), "setting": setting, **moved.model_dump(mode="json")}
    return CommandAnswer(value, "\n".join(said))


COMMAND = Command(
    name="move",
    run=run,
    options=(_TO, JSON),
    explains=(
        "Nobody may have the log open. The log is proved before, copied row by row and paper by paper, compared, and proved "
        "again; only then is it the log of the new place, and the old one says where it went. What breaks off goes on where "
        "it stopped when the same is typed again.\n"
        "On a server a log is a schema, ohmfolio where the address names none (?schema=NAME). Passwords stand in ~/.pgpass, "
        "never in an address. ohmfolio tend --share ROLE opens it to people with the least they need."
    ),
)
