"""Asks, once a log has been begun, which letters its numbers are to begin with."""

from collections.abc import Mapping
from typing import ClassVar

from textual.binding import BindingType

from domain.log.job_log import JobLogError
from domain.value import cleaned
from tui.keys import bindings, key_name
from tui.screens.dialogs import TypedDialog
from tui.services import Services
from tui.widgets.entry_lines import AskedLine
from tui.widgets.foot import SayLine


class LettersScreen(TypedDialog[str | None]):
    """The letters, with the initials of whoever is there put forward; hands back those that the log has now."""

    EXPLAINS: ClassVar[str] = (
        "Every job, paper and file of this log is named by a number, and these letters begin it. Once the first number is"
        " given they stay. A is left where nothing is chosen, which does where no other computer of the firm keeps a log."
    )

    BINDINGS: ClassVar[list[BindingType]] = bindings("accept-one")

    def __init__(self, services: Services) -> None:
        about = (
            "One to four letters, such as initials. Where several computers of a firm keep a log each takes others, or two"
            f" papers get one number. {key_name('let-be')} leaves A. A laptop gets its own with the file of its office, which"
            f" {key_name('keeping')} and O take in."
        )
        line = AskedLine("line", "", services.letters, must=True)
        super().__init__("Which letters shall the numbers of your jobs begin with?", (line,), about)
        self._services = services

    def hand_back(self, typed: Mapping[str, str]) -> None:
        """Have the log number so, or say why it cannot."""
        letters = cleaned(typed["line"]).strip().upper()
        try:
            why_not = self._services.log.begin_numbers(letters)
        except JobLogError as trouble:
            why_not = str(trouble)
        if why_not:
            self.query_one(SayLine).say(why_not, bad=True)
        else:
            self.dismiss(letters)
