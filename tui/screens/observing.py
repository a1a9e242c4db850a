"""How an observation is written from any step of a report: the form, then for a C1 what was done at once."""

from collections.abc import Callable, Mapping

from domain.editing.commands import Observe
from domain.inspection.observation import Code
from tui.screens.dialogs import FormScreen
from tui.screens.edit_forms import action_form, action_recorded
from tui.screens.job_screen import JobScreen


def ask_observation(
    screen: JobScreen,
    form: FormScreen,
    command: Callable[[Mapping[str, str]], Observe],
    then: Callable[[], object] | None = None,
) -> None:
    """Put the form, write what it gives, and go on `then`."""

    def take(typed: Mapping[str, str]) -> None:
        if write_observation(screen, command(typed)) and then:
            then()

    screen.ask(form, take)


def write_observation(screen: JobScreen, command: Observe) -> bool:
    """Write it; saved first, so that nothing is lost where the question on a C1 is left."""
    if not screen.do(command):
        return False
    job = screen.job
    written = command.observation or (job.observations[-1].id if job and job.observations else "")
    observation = next((each for each in job.observations if each.id == written), None) if job else None
    if observation and observation.code is Code.C1:
        screen.ask(action_form(observation), lambda typed: screen.do(action_recorded(observation, typed)))
    return True
