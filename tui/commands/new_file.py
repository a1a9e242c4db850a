"""A file that a command is to write, named on the command line."""

from pathlib import Path

from tui.commands.command import UnusableError


def new_pdf(name: str) -> Path | None:
    """The path of a PDF that is not there yet; None where none was named. UnusableError says why it cannot be written."""
    if not name:
        return None
    path = Path(name).absolute()
    if path.suffix.casefold() != ".pdf":
        raise UnusableError(f"--out takes the name of a PDF file, ending in .pdf; not {name}")
    if not path.parent.is_dir():
        raise UnusableError(f"{path.parent} is not a folder that exists")
    if path.exists():
        raise UnusableError(f"{name} exists already and is not written over")
    return path
