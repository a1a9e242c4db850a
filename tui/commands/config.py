"""`config`: which settings hold, and where each comes from."""

from tui.commands.command import Command, CommandAnswer, Environment, TypedArgument
from tui.commands.output import columns
from tui.configuration import configuration_files
from tui.setting_keys import KEYS


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    """Every setting with its value and origin, and the files that may hold them."""
    held = environment.configuration()
    files = configuration_files()
    settings = [held[key] for key in KEYS]
    value = {
        "settings": [
            {"key": each.key.name, "value": each.value, "origin": each.origin, "variable": each.key.variable}
            for each in settings
        ],
        "files": [{"path": str(path), "exists": path.exists()} for path in files],
    }
    rows = [(each.key.name, each.value, f"({each.origin})") for each in settings]
    widths = tuple(max(len(row[column]) for row in rows) for column in range(2))
    named = [f"{path}{'' if path.exists() else ', which is not there'}" for path in files]
    return CommandAnswer(value, "\n".join([columns(rows, widths), "", "Files, the later above the earlier:", *named]))


COMMAND = Command(
    name="config",
    run=run,
    explains="A file is TOML with a line a setting, such as copies = 14. Variables of the environment stand above files.\n"
    "NO_COLOR=1 in the environment shows no colour.\n"
    + "\n".join(f"{key.name} ({key.variable}): {key.says}" for key in KEYS),
)
