"""Asks whose report it is that was seen elsewhere, and where it is about."""

from collections.abc import Mapping
from datetime import date

from domain.forms.choice.answers import Answers
from domain.forms.choice.chosen import SeenElsewhere
from domain.job.job import Job
from domain.job.start import seen_job
from domain.value import PROSE_MAX, cleaned
from tui.screens.dialogs import FormScreen
from tui.widgets.entry_lines import AskedLine


def seen_form() -> FormScreen:
    """Firm, number and day of the report, and the place."""
    return FormScreen(
        "Another firm's report, seen elsewhere",
        (
            AskedLine("firm", "Firm that issued it", must=True),
            AskedLine("number", "Its number", must=True),
            AskedLine("inspected_on", "Inspected on, last day"),
            AskedLine("client", "Client"),
            AskedLine("address", "Address of the installation", must=True, limit=PROSE_MAX),
            AskedLine("postcode", "Postcode"),
        ),
        "It is kept to follow how it is put right. It is never issued here: the firm that made it answers for it.",
    )


def seen_in(typed: Mapping[str, str], answers: Answers, *, on: date) -> Job:
    """The report as it is kept: what was typed, and nothing that nobody said."""
    seen = SeenElsewhere(firm=cleaned(typed["firm"]), number=cleaned(typed["number"]))
    job = seen_job(seen, answers, on=on, inspected_on=cleaned(typed["inspected_on"]))
    return job.model_copy(
        update={
            "client": job.client.model_copy(update={"name": cleaned(typed["client"])}),
            "premises": job.premises.model_copy(
                update={"address": cleaned(typed["address"]), "postcode": cleaned(typed["postcode"])}
            ),
        }
    )
