"""What the snagging list and the observations say: their rows, and one of them in full."""

from collections.abc import Iterator

from domain.dates import written
from domain.inspection.observation import BY_GRAVITY, Code, Observation
from domain.job.job import Job
from domain.job.place_in_words import described
from domain.job.snag import Snag
from tui import theme
from tui.keys import key_name
from tui.screens.edit_forms import DANGER
from tui.widgets.pick_list import ListCell, ListRow
from tui.widgets.text_page import Paragraph


def snag_rows(job: Job) -> Iterator[ListRow]:
    """The snags, open ones first."""
    for snag in sorted(job.snags, key=lambda snag: not snag.is_open):
        sign, style = (theme.SIGN_SNAG, theme.FAILS) if snag.is_open else (theme.SIGN_GOOD, theme.GOOD)
        yield ListRow(
            snag.id,
            (
                ListCell(f"{sign} {'open' if snag.is_open else 'cleared'}", style, 9),
                ListCell(snag.what if not snag.where else f"{snag.what} ({snag.where})"),
                ListCell(f"{snag.raised_by}, {snag.raised_on:%d/%m/%Y}", theme.QUIET, 26),
            ),
        )


def observation_rows(job: Job) -> Iterator[ListRow]:
    """The observations, the worst code first."""
    for each in sorted(job.observations, key=lambda each: BY_GRAVITY.index(each.code)):
        style = theme.FAILS if each.code.is_pressing else theme.ASKS
        yield ListRow(
            each.id,
            (
                ListCell(each.code, style, 3),
                ListCell(each.finding),
                ListCell(each.where, least=17),
                ListCell(", ".join(each.items), theme.QUIET, least=8),
            ),
        )


def about_raised(job: Job, snag: Snag | None, observation: Observation | None, left: int) -> Iterator[Paragraph]:
    """One of them in full, or what to do while there is none; `left` failing readings are not answered yet."""
    if snag:
        yield Paragraph(snag.what, theme.HEAD)
        raised_by = f"Raised by {snag.raised_by} on {written(snag.raised_on)}"
        yield Paragraph(f"{raised_by}{f', {snag.where}' if snag.where else ''}.")
        if snag.about:
            yield Paragraph(f"About {described(job, snag.about)} ({key_name('go-there')} goes there).")
        if snag.cleared:
            done = snag.cleared
            yield Paragraph(f"Cleared by {done.by} on {written(done.on)}: {done.how}", theme.GOOD, theme.SIGN_GOOD)
    elif observation:
        yield from _about_observation(job, observation, left)
    elif seen := job.chosen.seen:
        yield Paragraph(f"Report {seen.number} of {seen.firm}", theme.HEAD)
        yield Paragraph(
            f"Copy each C1, C2 and FI word for word, with its code; {key_name('raise')} writes one. Then"
            f" {key_name('put-right')} follows how each is put right, and the log lists it until all are."
        )
    elif job.profile.takes_observations:
        for code in BY_GRAVITY:
            yield Paragraph(code.meaning, label=code, label_width=4)
    else:
        yield Paragraph("Raise what has to be put right before the certificate can be issued.", theme.QUIET)


def _about_observation(job: Job, observation: Observation, left: int) -> Iterator[Paragraph]:
    yield Paragraph(observation.code.meaning, theme.HEAD, observation.code)
    yield Paragraph(observation.finding)
    yield Paragraph(_answers(job, observation, left))
    items = f"Items {', '.join(observation.items)}. " if observation.items else ""
    why = f"Why this code: {observation.reason}" if observation.reason else ""
    if items or why:
        yield Paragraph(f"{items}{why}")
    if observation.action:
        yield Paragraph(observation.action.sentence)
    if observation.code is Code.C1:
        yield Paragraph(DANGER, theme.FAILS, theme.SIGN_SNAG)


def _answers(job: Job, observation: Observation, left: int) -> str:
    told = "; ".join(described(job, place) for place in observation.answers)
    more = (
        f" {left} failing reading{'s' if left > 1 else ''} of this report answered by none ({key_name('answers')} ticks them)."
        if left
        else ""
    )
    return f"{f'Answers {told}.' if told else 'General: it answers no reading.'}{more}"
