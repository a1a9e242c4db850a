"""The letters of a log that has just been begun: as the settings say, else asked."""

from domain.job.job_number import prefix_offered
from tui.configuration import Configuration
from tui.services import Services
from tui.setting_keys import LETTERS


def letters_asked(services: Services, configured: Configuration) -> str:
    """The letters to put forward; "" where the settings name some, which the log numbers with from now on."""
    letters = configured[LETTERS].value.upper()
    if not letters:
        return prefix_offered(services.who)
    services.log.begin_numbers(letters)
    return ""
