"""The two lines above every step of a job: what job it is and how it stands, and the steps."""

from collections import Counter

from rich.segment import Segment
from textual.reactive import var
from textual.strip import Strip
from textual.widget import Widget

from domain.gate.assessment import JobAssessment
from domain.gate.reason import ReasonKind
from domain.job.finding import Severity
from domain.job.job import Job
from domain.log.laptops import READ_ONLY
from tui import theme
from tui.job_page import JobPage, step_of, steps_for, word_for
from tui.keys import key_name
from tui.widgets.wrapping import padded

_FIGURES = 3
"""Cells of a blank and the figures of a count."""
_KINDS_TOLD = 2
"""Kinds of failure told apart; more of them are only counted."""


class JobBar(Widget):
    """Line 1: number, papers, place, what holds the job. Line 2: the steps, with how much is open on each."""

    DEFAULT_CSS = "JobBar { height: 2; }"

    job: var[Job | None] = var(None)
    """The job shown."""
    assessment: var[JobAssessment | None] = var(None)
    """How it stands."""
    step: var[JobPage] = var(JobPage.DETAILS)
    """The step the person is on."""
    saved: var[str] = var("")
    """When the last edit was saved, as a time of day."""
    not_saved: var[str] = var("")
    """What is said while something typed waits for the log to take it."""

    out: var[str] = var("")
    """Where the job is, in a firm with laptops."""

    def watch_out(self) -> None:
        self.refresh()

    def watch_job(self) -> None:
        self.refresh()

    def watch_assessment(self) -> None:
        self.refresh()

    def watch_saved(self) -> None:
        self.refresh()

    def watch_not_saved(self) -> None:
        self.refresh()

    def saved_at(self, time: str) -> None:
        """An edit was saved at a time of day, and nothing else waits."""
        self.saved, self.not_saved = time, ""

    def wait_for_log(self, says: str) -> None:
        """Something waits for the log to take it; "" once nothing does any more."""
        self.not_saved = says

    def render_line(self, y: int) -> Strip:
        if self.job is None or self.assessment is None:
            return Strip.blank(self.size.width)
        segments = self._summary(self.job, self.assessment) if y == 0 else self._steps(self.job, self.assessment)
        return Strip(segments).adjust_cell_length(self.size.width)

    def _summary(self, job: Job, assessment: JobAssessment) -> list[Segment]:
        name = job.client.name.strip() or "no client yet"
        place = " ".join(job.premises.address.split())
        state = state_of(job, assessment)
        saved = f"saved {self.saved} " if self.saved else ""
        if self.not_saved:
            saved = f"{theme.SIGN_FAILS} {self.not_saved} "
        is_here = not self.out.endswith(READ_ONLY)
        saved, state = (f"{self.out}  {saved}" if self.out else saved, state) if is_here else ("", self.out)
        left = f" {job.number or 'no number yet'} {job.form_set}  {name}{', ' if place else ''}{place}"
        room = max(self.size.width - len(state) - len(saved) - 2, 12)
        style = (
            theme.QUIET if not is_here else theme.FAILS if not assessment.may_issue and not job.issued else theme.GOOD
        )
        return [
            Segment(f"{padded(left, room)} ", theme.HEAD),
            Segment(saved, theme.FAILS if self.not_saved else theme.QUIET),
            Segment(f"{state} ", style),
        ]

    def _steps(self, job: Job, assessment: JobAssessment) -> list[Segment]:
        left = Counter(step_of(reason.place) for reason in assessment.reasons if not job.issued)
        steps = steps_for(job.form_set)
        words = [f"{key_name(step)} {word_for(step, job.form_set)}" for step in steps]
        # Words keep their places while one types: figures have their room, or a sign says that something is open.
        counts = sum(map(len, words)) + len(words) * (_FIGURES + 1) <= self.size.width
        counted = [
            f"{word}{_figure(left[step])}" if counts else f"{word}{theme.SIGN_OPEN if left[step] else ' '}"
            for word, step in zip(words, steps, strict=True)
        ]
        styles = [theme.LIT if step is self.step else theme.PLAIN for step in steps]
        return [
            part for label, style in zip(counted, styles, strict=True) for part in (Segment(label, style), Segment(" "))
        ]


def _figure(count: int) -> str:
    return f"{f' {count}' if count else '':<{_FIGURES}}"


def state_of(job: Job, assessment: JobAssessment) -> str:
    """What holds the job, counted by its kind; or that nothing does."""
    if job.issued:
        return f"issued: {assessment.outcome or 'complies'}"
    if job.laid_aside:
        return "laid aside"
    if job.chosen.seen:
        return f"seen elsewhere: {assessment.outcome}" if job.observations else "seen elsewhere"
    fails = Counter(finding.word for finding in assessment.findings if finding.severity is Severity.FAILS)
    failing = fails.most_common() if len(fails) <= _KINDS_TOLD else [("failing", fails.total())]
    parts = [
        f"{count} {word}{'' if count == 1 or word != 'gap' else 's'}"
        for count, word in (
            (len(assessment.open_snags), "open"),
            *((count, word) for word, count in failing),
            (len(assessment.gaps), "gap"),
            (sum(reason.kind is ReasonKind.QUESTION for reason in assessment.reasons), "to look at"),
        )
        if count
    ]
    if parts:
        return ", ".join(parts)
    if assessment.unsigned:
        return "to be signed"
    return "ready to issue" if assessment.may_issue else "may not be signed so"
