"""Raising a snag or an observation from a box or a finding, and ticking what else an observation answers."""

from collections.abc import Callable

from domain.editing.commands import AnswerFailures
from domain.gate.answered import answering_finding, failures_in, guidance_on, open_failures
from domain.inspection.observation import Observation
from domain.job.finding import Finding
from domain.job.place_in_words import described
from domain.place import Place
from tui.keys import key_name
from tui.screens.answers import AnswersScreen
from tui.screens.edit_forms import observation_form, observed, raised, snag_form
from tui.screens.job_step import JobStep
from tui.screens.observing import ask_observation
from tui.widgets.box_view import is_same


def raise_here(step: JobStep) -> None:
    """From the box under the cursor. On a report: where an observation answers its failure already, tick what else that one answers."""
    place, assessment = step.where(), step.session.assessment
    if not step.host.may_type() or not step.commit_open_entry():
        return
    if place is None or not place.box or assessment is None or step.job is None:
        step.say("A snag or an observation is raised from a box")
        return
    here = [each for each in assessment.findings if any(is_same(place, other) for other in each.places)]
    failing = next(iter(failures_in(here)), None)
    answered = answering_finding(step.job, failing) if failing and step.job.profile.takes_observations else ()
    if answered:
        tick_answers(step, answered[0][1])
    else:
        raise_about(step, place, failing or next(iter(here), None), lambda: _say_what_is_left(step))


def raise_about(step: JobStep, place: Place, finding: Finding | None, then: Callable[[], object] | None = None) -> None:
    """Put the form of a snag or an observation about a place; raised from what fails, the observation answers it."""
    job, services = step.job, step.host.ohmfolio.services
    if job is None:
        return
    where, found = described(job, place), finding.says if finding else ""
    if not job.profile.takes_observations:
        form = snag_form(step.host.ohmfolio.naming.name, where=where, what=found)
        step.host.ask_named(form, lambda typed: raised(typed, services.now().date(), place))
        return
    fails = finding is not None and bool(failures_in((finding,)))
    about = finding.place if finding else place
    ask_observation(
        step,
        observation_form(finding=found, where=where, item=place.item, known=guidance_on(finding) if finding else None),
        lambda typed: observed(typed, about=about, answers=(about,) if fails else ()),
        then,
    )


def tick_answers(step: JobStep, observation: Observation) -> None:
    """List the failures that an observation answers or nobody does, to tick."""
    if step.job is None or step.session.assessment is None:
        return
    step.host.ask(
        AnswersScreen(step.job, observation, step.session.assessment.findings),
        lambda places: step.do(AnswerFailures(observation=observation.id, answers=places)),
    )


def _say_what_is_left(step: JobStep) -> None:
    job, assessment = step.job, step.session.assessment
    left = len(open_failures(job, assessment.findings)) if job and assessment else 0
    if job and left:
        step.say(
            f"{len(job.observations)} written; {left} fail still. {key_name('raise-here')} here again ticks those it answers too"
        )
