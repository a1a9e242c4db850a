"""The name of whoever is at the keyboard, as they last gave it; kept in the log from day to day."""

import os
import pwd

from domain.log.job_log import JobLogError
from domain.value import LINE_MAX, cleaned
from tui.services import Services

TOPIC = "name"


def account_name() -> str:
    """By the system's own account of who runs this; what a person may set in their environment counts for nothing."""
    try:
        return cleaned(pwd.getpwuid(os.getuid()).pw_name)[:LINE_MAX] or f"uid {os.getuid()}"
    except KeyError:
        return f"uid {os.getuid()}"


class Naming:
    """Put forward wherever a name is asked; the login until one was given."""

    def __init__(self, services: Services) -> None:
        self._services = services

    @property
    def name(self) -> str:
        """The name last given under this login."""
        return self.given or self._services.who

    @property
    def given(self) -> str:
        """The same; empty until one was given."""
        try:
            notes = self._services.log.notes(TOPIC, who=self._services.who)
        except JobLogError:
            return ""
        return notes[-1].text if notes else ""

    def note(self, name: str) -> None:
        """Remember a name just given; a log that cannot takes nothing from the person but that."""
        if name.strip() and name.strip() != self.given:
            try:
                self._services.log.add_note(TOPIC, name.strip(), who=self._services.who, at=self._services.now())
            except JobLogError:
                return
