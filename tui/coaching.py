"""Whether the coach speaks to the person at the keyboard; kept in the log from day to day."""

from datetime import datetime

from domain.log.job_log import JobLog, JobLogError
from tui.services import Services

TOPIC = "coach"
ON, OFF = "on", "off"


class Coaching:
    """The setting of one person: off until they turn it on, or begin to practise."""

    def __init__(self, services: Services) -> None:
        self._services = services
        self._who = services.who
        self._is_open: bool | None = None

    @property
    def is_open(self) -> bool:
        """The coach speaks on every screen."""
        if self._is_open is None:
            self._is_open = _kept(self._services.log, self._who) == ON
        return self._is_open

    def turn(self) -> None:
        """From on to off, or from off to on."""
        self._is_open = not self.is_open
        keep(self._services.log, self._who, self._services.now(), is_open=self._is_open)

    def begin_for(self, newcomer: str) -> None:
        """Speak to somebody who begins to practise, whoever's keyboard it is; on where they have never set it."""
        self._attend(newcomer)
        if not _kept(self._services.log, newcomer):
            keep(self._services.log, newcomer, self._services.now(), is_open=True)

    def end_practice(self) -> None:
        """Speak to the person at the keyboard again."""
        self._attend(self._services.who)

    def _attend(self, who: str) -> None:
        self._who, self._is_open = who, None


def keep(log: JobLog, who: str, at: datetime, *, is_open: bool) -> None:
    """Keep the setting; a log that cannot takes nothing from the person but that."""
    try:
        log.add_note(TOPIC, ON if is_open else OFF, who=who, at=at)
    except JobLogError:
        return


def _kept(log: JobLog, who: str) -> str:
    try:
        notes = log.notes(TOPIC, who=who)
    except JobLogError:
        return ""
    return notes[-1].text if notes else ""
