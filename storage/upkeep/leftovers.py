"""Files that programs left behind when they ended in the middle of writing."""

from collections.abc import Iterator
from datetime import datetime, timedelta
from pathlib import Path

from domain.log.upkeep import Concern, LogFault

_OLD = timedelta(hours=1)
"""A younger one may be somebody's work in progress."""


def faults_of_leftovers(home: Path, at: datetime) -> Iterator[LogFault]:
    """Parts of files that nobody is writing any more."""
    if left := leftovers(home, at):
        names = ", ".join(str(path) for path in left[:3])
        more = f" and {len(left) - 3} more" if len(left) > 3 else ""
        do = "They are of no use: `ohmfolio tend --mend` removes them."
        yield LogFault(about=Concern.LEFTOVERS, says=f"A program ended while it wrote a file: {names}{more}.", do=do)


def leftovers(home: Path, at: datetime) -> list[Path]:
    """Files begun long ago and never finished, in the folder of the log and those in it."""
    parts = sorted({*home.glob(".*.part"), *home.glob("*/.*.part")})
    return [part for part in parts if part.stat().st_mtime < (at - _OLD).timestamp()]


def clear(left: list[Path]) -> str:
    """Remove what is left over; what was done."""
    for part in left:
        part.unlink(missing_ok=True)
    return f"{len(left)} unfinished files were removed."
