"""A fourth form set, invented for tests: a page that says a supply was isolated, with no circuit and no schedule."""

from collections.abc import Iterator
from contextlib import contextmanager

from domain.forms.box_group import BoxGroup
from domain.forms.form_set import FormSet, listed
from domain.forms.profile import FormProfile
from domain.job.job import Job
from tests.builders import entered, fresh, signed

ISOLATION = FormProfile(
    id="ISO",
    title="Record of Isolation",
    short_name="a record of isolation",
    kind="record",
    purpose="That a supply was made dead, by",
    letter="I",
    asks=frozenset({BoxGroup.CLIENT, BoxGroup.PREMISES, BoxGroup.FIRM, BoxGroup.WORK}),
    offers=frozenset({BoxGroup.USE}),
    roles=("inspected and tested",),
    section="work",
    day_box="completed_on",
)
PAGES = {
    "client": {"name": "Zoë Fairweather", "address": "3 Larkspur Court\nWetherham"},
    "premises": {"address": "The Old Forge\n12 Tanner's Row\nWetherham", "postcode": "WQ7 1AB"},
    "work": {
        "description": "Supply to the workshop isolated, locked and proved dead",
        "completed_on": "02/03/2026",
        "departures": "None",
        "exceptions": "None",
        "comments": "None",
    },
    "firm": {"name": "Harebell Electrical", "address": "Unit 4, Mill Yard\nWetherham WQ1 2CD"},
}


@contextmanager
def isolation_listed() -> Iterator[FormSet]:
    """The list with this form set on it."""
    with listed(ISOLATION) as form_set:
        yield form_set


def complete_isolation(form_set: FormSet, *, sign: bool = True) -> Job:
    """A record with every gap filled."""
    job = fresh(form_set)
    for section, boxes in PAGES.items():
        job = entered(job, boxes, section=section)
    return signed(job) if sign else job
