"""How an observation is written from any step of a report: the form, then for a C1 what was done at once."""

from collections.abc import Callable, Mapping

from domain.editing.commands import Observe
from domain.inspection.observation import Code
from tui.screens.dialogs import FormScreen
from tui.screens.edit_forms import action_form, action_recorded
from tui.screens.job_step import JobStep


def ask_observation(
    step: JobStep,
    form: FormScreen,
    command: Callable[[Mapping[str, str]], Observe],
    then: Callable[[], object] | None = None,
) -> None:
    """Put the form, write what it gives, and go on `then`."""

    def take(typed: Mapping[str, str]) -> None:
        if write_observation(step, command(typed)) and then:
            then()

    step.host.ask(form, take)


def write_observation(step: JobStep, command: Observe) -> bool:
    """Write it; saved first, so that nothing is lost where the question on a C1 is left."""
    if not step.do(command):
        return False
    job = step.job
    written = command.observation or (job.observations[-1].id if job and job.observations else "")
    observation = next((each for each in job.observations if each.id == written), None) if job else None
    if observation and observation.code is Code.C1:
        step.host.ask(action_form(observation), lambda typed: step.do(action_recorded(observation, typed)))
    return True
