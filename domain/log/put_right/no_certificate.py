"""Work on an observation that needs no certificate, and why: in the words of the decision on papers."""

from collections.abc import Mapping
from functools import cache

from domain.forms.choice.answers import Answers
from domain.forms.choice.choosing import choose

WORKS = ("accessory", "equipment")
"""What is exchanged like for like, as the question on papers names it."""


@cache
def decisions() -> Mapping[str, str]:
    """The decision's own words on each work for which it asks no form set."""
    advice = {work: choose(Answers.model_validate({"done": "replacement", "replaced": work})) for work in WORKS}
    return {work: each.why for work, each in advice.items() if each.is_decided and each.form_set is None}


def work_of(because: str) -> str:
    """Which work a decision was on; "" for words that are no decision."""
    return next((work for work, why in decisions().items() if why == because), "")
