"""What the screen of finding says: the filters with their keys, and by what the job under the cursor was found."""

from collections.abc import Mapping
from typing import Any

from domain.civil_time import civil_day
from domain.dates import written
from domain.forms.form_set import FormSet
from domain.gate.outcome import Outcome
from domain.log.job_log import Found, FoundBy, FoundJob, JobLine, Query, State
from domain.log.ready_lists import SOON
from domain.log.times import in_words
from tui import theme
from tui.keys import key_name
from tui.widgets.text_page import Paragraph

LISTS: Mapping[str, str] = {
    "all": "all jobs",
    "yours": "yours",
    "snagged": "with open snags",
    "ready": "ready to issue",
    "due": f"due within {SOON.days} days",
    "unsatisfactory": "C1, C2 or FI to be put right",
    "aside": "drafts laid aside",
}
_FILTERS: Mapping[str, tuple[str, str]] = {
    "form_set": ("papers", "find-form"),
    "state": ("state", "find-state"),
    "open_snags": ("open snags", "find-snags"),
    "outcome": ("outcome", "find-outcome"),
    "year": ("year", "find-year"),
}
_WHERE = {"client": "client", "place": "address", "when": "day", "other": "in the papers"}


def choices_of(name: str, this_year: int) -> tuple[Any, ...]:
    """What a filter goes through, one after another; None asks for nothing."""
    return {
        "form_set": (None, *FormSet),
        "state": (None, *State),
        "open_snags": (None, True, False),
        "outcome": (None, *Outcome),
        "year": (None, *range(this_year, this_year - 6, -1)),
    }[name]


def is_filtered(query: Query) -> bool:
    """Something is asked besides words."""
    return any(getattr(query, name) is not None for name in _FILTERS)


def filters_said(query: Query, listed: str) -> list[Paragraph]:
    """Every filter with its key and what it asks for now."""
    said = [f"{key_name(key)} {label}: {_asked(getattr(query, name))}" for name, (label, key) in _FILTERS.items()]
    return [Paragraph("   ".join((*said, f"{key_name('find-list')} list: {LISTS[listed]}")), theme.QUIET)]


def count_said(found: int, last: Found) -> str:
    """How many were found, and how surely."""
    if not found:
        return ""
    if not last.is_whole:
        return f"No job holds all of that; {found} hold{'s' if found == 1 else ''} part of it, the most first"
    if not last.is_as_typed and last.jobs:
        meant = " ".join(in_words(each.word) for each in last.jobs[0].by)
        return f"Nothing holds that as typed; shown is what holds: {meant}"
    return f"{found}{' or more' if last.has_more else ''} found"


def found_by(job: FoundJob) -> list[Paragraph]:
    """When the job was touched last, by what it was found, and what it lacks."""
    said = f"{job.line.number}: {_days_of(job.line)}"
    by = ", ".join(dict.fromkeys(_by(each) for each in job.by))
    lines = [Paragraph(f"{said}. Found by {by}." if by else f"{said}.")]
    if job.lacks:
        lines.append(Paragraph(f"Not in it: {', '.join(job.lacks)}", theme.ASKS, theme.SIGN_ASKS))
    return lines


def _days_of(line: JobLine) -> str:
    touched = f"touched last on {written(civil_day(line.updated))}"
    of_work = "inspected" if line.form_set.profile.states_a_condition else "completed"
    due = f", next inspection due by {written(line.due)}" if line.due else ""
    return f"{of_work} on {written(line.day)}{due}" if line.day else touched


def _by(each: FoundBy) -> str:
    word = in_words(each.word) if each.where == "when" else each.word
    return f"{word} ({_WHERE[each.where]})"


def _asked(value: object) -> object:
    return {None: "any", True: "some", False: "none"}.get(value, value) if isinstance(value, bool | None) else value
