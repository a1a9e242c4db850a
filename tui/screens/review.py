"""Everything found and everything still missing, each line a key-press from its place."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import ClassVar

from rich.style import Style
from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType

from domain.checks.shared.lifting import what_lifts
from domain.editing.commands import Choose, SetEdition
from domain.edition import Edition
from domain.forms.choice.question import in_words
from domain.forms.form_set import FormSet
from domain.gate.answered import answering_finding
from domain.gate.assessment import JobAssessment, count_codes, explanation_of
from domain.gate.observation_gaps import UNOBSERVED
from domain.gate.outcome import Outcome
from domain.gate.reason import Reason, ReasonKind
from domain.job.explanation import Explanation
from domain.job.finding import Finding, Gap, Severity
from domain.job.job import Job
from domain.job.place_in_words import box_at, described
from domain.place import Place
from domain.words import capitalised
from tui import theme
from tui.job_page import JobPage
from tui.keys import bindings, key_name
from tui.screens.edit_forms import (
    edition_form,
    explained,
    explanation_form,
    other_papers_form,
)
from tui.screens.job_session import JobSession
from tui.screens.job_step import JobStep, StepHost
from tui.screens.raising import raise_about
from tui.widgets.pick_list import ListCell, ListRow, PickList
from tui.widgets.text_page import Paragraph, TextPage

PAPERS, EDITION = "papers", "edition"


@dataclass(frozen=True, slots=True)
class ReviewEntry:
    """One line of the review."""

    sign: str
    style: Style
    place: Place
    says: str
    finding: Finding | None = None


class ReviewStep(JobStep):
    """What holds the job back first, then what deserves a second look, then how the job is worked."""

    PAGE = JobPage.REVIEW
    EXPLAINS: ClassVar[str] = (
        "Everything the checks found and everything still missing, what keeps the job back first. Enter goes to the"
        f" place of a line; {key_name('raise-about')} raises a snag from it, or an observation on a report. What a check only asks about is"
        f" mended, or explained with {key_name('explain')}. At the end stand the papers and"
        " the edition the job is worked to; Enter there changes them, papers only with a reason. The outcome is"
        " computed and nobody types it, but for FI alone where the rule on it is contested: there the inspector decides. The figures support a competent person; the current standard decides."
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings("visit", "explain", "raise-about")
    SCOPED_CSS = False
    DEFAULT_CSS = """
    ReviewStep > #outcome { height: auto; padding: 0 1; }
    ReviewStep > #about { height: 8; padding: 0 1; }
    .-broad ReviewStep > #about { height: 5; }
    """

    def __init__(self, session: JobSession, host: StepHost) -> None:
        super().__init__(session, host)
        self._entries: dict[str, ReviewEntry] = {}

    def compose(self) -> ComposeResult:
        yield TextPage(id="outcome")
        yield PickList(classes="step", lines_a_row=2)
        yield TextPage(id="about")

    def show_job(self) -> None:
        """List it all again."""
        job, assessment = self.session.job, self.session.assessment
        if job is None or assessment is None:
            return
        self._entries = {}
        self.query_one("#outcome", TextPage).show([_outcome(job, assessment)])
        self.query_one(PickList).show([*self._listed(job, assessment), *_worked_rows(job)])
        self.show_one()

    def go_to(self, place: Place) -> None:
        """Put the cursor on the line of a place."""
        found = PAPERS if place.section == "chosen" else self._row_of(place)
        self.query_one(PickList).go_to(found)

    def where(self) -> Place | None:
        """The place of the line under the cursor."""
        entry = self._entry
        return entry.place if entry else None

    @on(PickList.Moved)
    def show_one(self) -> None:
        """Say the line under the cursor in full."""
        row = self.query_one(PickList).at
        if self.job:
            self.query_one("#about", TextPage).show(_about(self.job, self._entry, row.id if row else ""))

    def action_visit_row(self) -> None:
        """Go to the place of the line under the cursor, or change how the job is worked."""
        row, job = self.query_one(PickList).at, self.job
        if job is None or row is None:
            return
        if row.id in {PAPERS, EDITION} and not self.host.may_type():
            return
        if row.id == PAPERS:
            self.host.ask(other_papers_form(job.chosen), self._change_papers)
        elif row.id == EDITION:
            self.host.ask(edition_form(job, self.host.ohmfolio.services.now().date()), self._change_edition)
        elif entry := self._entry:
            self.host.visit(entry.place, entry.says)

    def action_raise_about(self) -> None:
        """Raise a snag or an observation from the line under the cursor."""
        entry = self._entry
        if not self.host.may_type():
            return
        if entry is None or entry.place.snag or entry.place.observation:
            self.say("A snag or an observation is raised from a reading or a box")
            return
        raise_about(self, entry.place, entry.finding)

    def action_explain(self) -> None:
        """Say why what a check asked about is right."""
        finding, services = self._entry.finding if self._entry else None, self.host.ohmfolio.services
        if not self.host.may_type():
            return
        if finding is None or finding.severity is not Severity.ASK:
            self.say("Only what a check asks about is explained; what fails is put right")
            return
        form = explanation_form(finding, self.host.ohmfolio.naming.name)
        self.host.ask_named(form, lambda typed: explained(finding, typed, services.now().date()))

    @property
    def _entry(self) -> ReviewEntry | None:
        row = self.query_one(PickList).at
        return self._entries.get(row.id) if row else None

    def _row_of(self, place: Place) -> str:
        return next((row for row, entry in self._entries.items() if entry.place == place), "")

    def _change_papers(self, typed: Mapping[str, str]) -> None:
        if self.job:
            update = {"form_set": FormSet(typed["form_set"]), "because": typed["because"]}
            self.do(Choose(chosen=self.job.chosen.model_copy(update=update)))

    def _change_edition(self, typed: Mapping[str, str]) -> None:
        self.do(SetEdition(edition=Edition(typed["edition"]), named=typed["named"]))

    def _listed(self, job: Job, assessment: JobAssessment) -> Iterator[ListRow]:
        for title, entries in _parts(job, assessment):
            if not entries:
                continue
            yield ListRow(title, (ListCell(f"{title} ({len(entries)})", theme.HEAD),), heading=True)
            for entry in entries:
                row = f"{title} {len(self._entries)}"
                self._entries[row] = entry
                where = described(job, entry.place)
                says = f"{where}: {entry.says}" if where else entry.says
                yield ListRow(row, (ListCell(entry.sign, entry.style, 1), ListCell(says)))


def _parts(job: Job, assessment: JobAssessment) -> Iterator[tuple[str, list[ReviewEntry]]]:
    of = {severity: [each for each in assessment.findings if each.severity is severity] for severity in Severity}
    snags = list(assessment.open_snags) if job.profile.takes_snags else []
    yield "Open snags", [ReviewEntry(theme.SIGN_SNAG, theme.FAILS, Place(snag=each.id), each.what) for each in snags]
    bare, gaps = _told_apart(assessment.gaps, of[Severity.FAILS])
    yield "Fails", [_failing(job, each, bare=each in bare) for each in of[Severity.FAILS]]
    yield "Still missing", [ReviewEntry(theme.SIGN_GAP, theme.ASKS, each.place, each.says) for each in gaps]
    yield (
        "Not signed yet",
        [
            ReviewEntry(
                theme.SIGN_GAP, theme.ASKS, Place(section="signatures", box=role), f"{key_name('issue')} signs it"
            )
            for role in assessment.unsigned
        ],
    )
    yield (
        "Signed by somebody who may not",
        [_not_theirs(each) for each in assessment.reasons if each.kind is ReasonKind.SIGNER],
    )
    asks = [(each, explanation_of(job, each)) for each in of[Severity.ASK]]
    yield (
        f"Look again: mend it, or say with {key_name('explain')} why it is right",
        [ReviewEntry(theme.SIGN_ASKS, theme.ASKS, each.place, each.says, each) for each, why in asks if why is None],
    )
    yield "Explained", [_explained(each, why) for each, why in asks if why]
    yield "Notes", [ReviewEntry("-", theme.QUIET, each.place, each.says, each) for each in of[Severity.NOTE]]


def _not_theirs(reason: Reason) -> ReviewEntry:
    return ReviewEntry(theme.SIGN_FAILS, theme.FAILS, reason.place, reason.says)


def _explained(finding: Finding, why: Explanation) -> ReviewEntry:
    return ReviewEntry(theme.SIGN_GOOD, theme.GOOD, finding.place, f"{why.reason} ({why.by})", finding)


def _told_apart(gaps: tuple[Gap, ...], failing: list[Finding]) -> tuple[list[Finding], list[Gap]]:
    """The failing findings no observation answers, and the gaps that are about something else."""
    unobserved = {(gap.place, gap.values["id"]) for gap in gaps if gap.kind == UNOBSERVED}
    bare = [each for each in failing if (each.place, each.id) in unobserved]
    return bare, [gap for gap in gaps if gap.kind != UNOBSERVED]


def _failing(job: Job, finding: Finding, *, bare: bool) -> ReviewEntry:
    if not job.profile.states_a_condition:
        return ReviewEntry(theme.SIGN_FAILS, theme.FAILS, finding.place, finding.says, finding)
    numbers = " and ".join(str(number) for number, _ in answering_finding(job, finding))
    # First whether it is answered: the rest of a long sentence may not be seen.
    standing = f"No observation yet ({key_name('raise-about')})." if bare else f"Observation {numbers} answers it."
    says = f"{standing} {finding.says}"
    return ReviewEntry(theme.SIGN_FAILS, theme.FAILS if bare else theme.PLAIN, finding.place, says, finding)


def _outcome(job: Job, assessment: JobAssessment) -> Paragraph:
    left = len(assessment.reasons)
    signatures = sum(each.kind is ReasonKind.SIGNATURE for each in assessment.reasons)
    others = left - signatures
    counts = [f"{others} thing{'' if others == 1 else 's'} to settle"] if others else []
    counts += [f"{signatures} to sign"] if signatures else []
    holds = f"{', '.join(counts)} before issue" if left else "nothing holds it"
    if job.issued:
        return Paragraph(f"Issued: {assessment.outcome or Outcome.COMPLIES}", theme.HEAD)
    if not job.profile.states_a_condition:
        sign = theme.SIGN_FAILS if left else theme.SIGN_GOOD
        says = holds if left else f"complies; it can be issued ({key_name('issue')})"
        return Paragraph(capitalised(says), theme.FAILS if left else theme.GOOD, sign)
    codes = ", ".join(f"{count} {code}" for code, count in count_codes(job).items() if count)
    if assessment.outcome is None:
        return Paragraph(f"Not decided yet ({codes}): FI stands alone, and you decide; {holds}", theme.HEAD)
    if assessment.outcome is not Outcome.UNSATISFACTORY and any(
        each.kind is not ReasonKind.SIGNATURE for each in assessment.reasons
    ):
        return Paragraph(f"Not decided yet{f' ({codes})' if codes else ''}; {holds}", theme.HEAD)
    return Paragraph(f"As it stands: {assessment.outcome}{f' ({codes})' if codes else ''}; {holds}", theme.HEAD)


def _worked_rows(job: Job) -> Iterator[ListRow]:
    yield ListRow("worked", (ListCell("How the job is worked", theme.HEAD),), heading=True)
    advice = "" if not job.chosen.is_override else f", against the advice ({job.chosen.advised})"
    yield ListRow(PAPERS, (ListCell("-", theme.QUIET, 1), ListCell(f"Papers: {job.profile.title}{advice}")))
    yield ListRow(EDITION, (ListCell("-", theme.QUIET, 1), ListCell(f"Edition: {job.edition_in_full}")))


def _about(job: Job, entry: ReviewEntry | None, row: str) -> Iterator[Paragraph]:
    if entry and entry.finding:
        finding = entry.finding
        yield Paragraph(entry.says)
        if finding.says not in entry.says:
            yield Paragraph(finding.says)
        against = [f"Measured {finding.measured}" if finding.measured else "", f"limit {finding.limit}"]
        yield Paragraph(", ".join(part for part in against if part and finding.limit) or finding.measured, theme.HEAD)
        if lifts := what_lifts(finding):
            yield Paragraph(lifts, theme.QUIET)
        if finding.source:
            yield Paragraph(finding.source.cited, theme.QUIET)
    elif entry:
        box = box_at(job, entry.place)
        yield Paragraph(f"{described(job, entry.place)}: {entry.says}")
        if box and box.help:
            yield Paragraph(box.help, theme.QUIET)
    elif row == PAPERS:
        chosen = job.chosen
        advised = f"Advised: {chosen.advised.profile.title}." if chosen.advised else "No advice was asked for."
        yield Paragraph(f"{advised} {f'Taken because: {chosen.because}' if chosen.because else ''}")
        yield Paragraph(" ".join(answer for _, answer in in_words(chosen.answers)), theme.QUIET)
    elif row == EDITION:
        yield Paragraph("Figures, inspection items and declarations follow the edition. Enter changes it.")
