"""What keeps the observations of a report from standing: failures nobody answers, codes without a reason, items that disagree."""

from collections.abc import Iterator

from domain.gate.answered import guidance_on, lesser_coded, open_failures
from domain.gate.sentence import gap, said
from domain.inspection.observation import Code, Observation, gravest, is_gentler
from domain.job.finding import Finding, Gap
from domain.job.job import Job
from domain.job.place_in_words import described
from domain.place import Place
from domain.value import is_hollow, is_repeated

UNOBSERVED = "unobserved"
"""The kind of gap of a failing finding on a report that no observation answers."""


def observation_gaps(job: Job, findings: tuple[Finding, ...]) -> Iterator[Gap]:
    """The gaps of a report's observations, and of what fails without one."""
    if not job.profile.takes_observations:
        for each in job.observations:
            yield gap("observation-on-certificate", Place(observation=each.id), code=each.code)
        return
    yield from _uncoded_items(job)
    yield from _disagreeing_items(job)
    for each in job.observations:
        if is_hollow(each.finding):
            yield gap("observation-says-nothing", Place(observation=each.id))
        yield from _reason_gaps(job, each, findings)
        if each.code is Code.C1 and not (each.action and each.action.is_told):
            yield gap("danger-without-action", Place(observation=each.id))
    for finding in open_failures(job, findings):
        yield gap(UNOBSERVED, finding.place, id=finding.id, finding=finding.says, untied=_untied(job, finding))


def _uncoded_items(job: Job) -> Iterator[Gap]:
    for outcome in job.inspection:
        code = outcome.mark.code
        if code and not any(outcome.item in each.items and each.code is code for each in job.observations):
            yield gap("code-without-observation", Place(section="inspection", item=outcome.item), code=code)


def _disagreeing_items(job: Job) -> Iterator[Gap]:
    marks = {outcome.item: outcome.mark for outcome in job.inspection}
    known = {item.number for item in job.items}
    for each in job.observations:
        for item in each.items:
            code = gravest(other.code for other in job.observations if item in other.items)
            if item not in known:
                yield gap("item-not-listed", Place(observation=each.id), item=item)
            elif item in marks and marks[item].code is not code:
                place, marked = Place(observation=each.id), str(marks[item])
                yield gap("item-marked-otherwise", place, item=item, code=str(code), marked=marked)


def _reason_gaps(job: Job, each: Observation, findings: tuple[Finding, ...]) -> Iterator[Gap]:
    if not is_hollow(each.reason) and not is_repeated(each.reason, (other.reason for other in job.observations)):
        return
    place = Place(observation=each.id)
    if answered := lesser_coded(each, findings):
        failure = described(job, answered[0].place)
        yield gap(
            "lesser-code-without-reason", place, code=str(each.code), failure=failure, guided=_guided(each, answered)
        )
    elif each.lowered_from:
        yield gap("lowered-without-reason", place, code=str(each.code), was=str(each.lowered_from))


def _guided(each: Observation, answered: tuple[Finding, ...]) -> str:
    """What guidance names for the first failure for which it names only graver codes."""
    for named in filter(None, map(guidance_on, answered)):
        if named.commonly and all(is_gentler(each.code, code) for code in named.commonly):
            return said("part.guided", codes=" or ".join(named.commonly), about=named.about)
    return ""


def _untied(job: Job, finding: Finding) -> str:
    """Why an observation raised at the very box does not count: it is tied to nothing, as those of old drafts are."""
    for number, each in enumerate(job.observations, start=1):
        if each.about == finding.place:
            return said("part.untied", number=str(number))
    return ""
