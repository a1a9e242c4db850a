"""Practice as the log keeps it: who practised, and what they answered."""

from datetime import datetime

from domain.coach.answered import TOPIC, Answered, GivenAnswer, answered_in
from domain.log.job_log import JobLog
from domain.log.search_words import folded


def practisers(log: JobLog) -> tuple[str, ...]:
    """Everybody who ever answered a case, in the order they began."""
    return tuple(dict.fromkeys(each.who for each in log.notes(TOPIC)))


def named(log: JobLog, typed: str) -> str | None:
    """A person as the log spells them; None for somebody who never practised."""
    name = " ".join(typed.split())
    known = practisers(log)
    return next((each for each in known if each == name or folded(each) == folded(name)), None)


def answers_of(log: JobLog, who: str, now: datetime) -> tuple[Answered, ...]:
    """What somebody answered, oldest first, each on its day as the clock here has it."""
    kept = (answered_in(each.text, each.at.astimezone(now.tzinfo)) for each in log.notes(TOPIC, who=who))
    return tuple(each for each in kept if each)


def keep(log: JobLog, who: str, given: GivenAnswer, at: datetime) -> None:
    """Keep an answer."""
    log.add_note(TOPIC, given.model_dump_json(), who=who, at=at)
