"""What other people do to a job while it is open here."""

from domain.log.job_log import JobLog, TrailLine
from domain.place import Place


class Others:
    """Asks the log for what somebody else did since it was asked last; next to no work while nobody did anything."""

    def __init__(self, log: JobLog, number: str) -> None:
        self._log = log
        self._number = number
        # The version first: what happens in between is heard of twice, not missed.
        self._version = log.version(number)
        self._data_version = log.data_version()

    def news(self) -> tuple[TrailLine, ...]:
        """The edits of this job since the last time, where another program made any; those made here among them."""
        data_version = self._log.data_version()
        if data_version == self._data_version:
            return ()
        lines = self._log.trail(self._number, after=self._version)
        self._data_version = data_version
        self._version = lines[-1].version if lines else self._version
        return lines


def told(lines: tuple[TrailLine, ...], who: str, typing: Place | None, *, kept: bool) -> str:
    """What others did, in one sentence; first of all what they did to the box that is typed into, or just `kept`."""
    theirs = [line for line in lines if line.who != who]
    here = [line for line in theirs if typing is not None and line.place == typing]
    if here and kept:
        return f"Yours is kept. Meanwhile {here[-1].who} had put {here[-1].what}"
    if here:
        return f"Enter keeps yours, Esc leaves theirs: {here[-1].who} put {here[-1].what}"
    if not theirs:
        return f"Changed from another window: {lines[-1].what}" if lines else ""
    more = f", and {len(theirs) - 1} more" if len(theirs) > 1 else ""
    return f"{theirs[-1].who} changed {theirs[-1].what}{more}"
