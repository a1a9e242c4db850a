"""Signatures, the draft, and issuing the pack."""

from functools import partial
from itertools import count
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.timer import Timer

from domain.editing.commands import Declined, SayWhy
from domain.gate.assessment import JobAssessment, Refusal, issue
from domain.gate.issued_paper import IssuedPaper
from domain.gate.reason import Reason, ReasonKind
from domain.job.job import Job
from domain.job.signature import Role
from domain.log.job_log import JobLogError, State
from domain.place import Place
from tui import theme
from tui.job_page import JobPage
from tui.keys import bindings
from tui.screens import issue_forms as forms
from tui.screens.issue_text import about_issued, about_proof, about_reason, about_role, making, reason_id, rows_of
from tui.screens.job_session import JobSession
from tui.screens.job_step import JobStep, StepHost
from tui.screens.laying_aside import turn_aside
from tui.screens.owed_rows import owed_rows
from tui.screens.paper_maker import PaperMaker
from tui.screens.paper_making import Attempt, Make, draft_of, mail_of, pack_again, pack_of, verified
from tui.screens.signing import SigningActions
from tui.widgets.pick_list import PickList
from tui.widgets.text_page import Paragraph, ReadingPage

_WAITING = {
    *("do_row", "sign_all", "unsign", "draft", "issue", "correct"),
    *("pack_again", "mail", "verify_file", "say_why", "lay_aside"),
}
"""What waits until the paper that is being made is there."""


class IssueStep(JobStep):
    """The parts to be signed with their signatures; after a refusal, its reasons; once issued, the paper."""

    PAGE = JobPage.ISSUE
    EXPLAINS: ClassVar[str] = (
        "Every part is signed by whoever answers for it; what is declared stands below. Signatures are lifted when"
        " the job changes after them. A draft can be printed at any time. Issuing says everything that keeps the"
        " paper back, or makes the pack: after that nothing in it can be changed, only replaced by a correction."
        " Tab goes to the text below, to scroll it."
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(
        *("row-do", "sign-all", "unsign", "draft", "issue-now", "lay-aside"),
        *("correct", "say-why", "pack-again", "mail", "verify-file"),
    )
    DEFAULT_CSS = """
    IssueStep > #about { height: 10; padding: 0 1; }
    IssueStep.-issued > #about { height: 14; }
    IssueStep.-refused > #about { height: 4; }
    """

    def __init__(self, session: JobSession, host: StepHost) -> None:
        super().__init__(session, host)
        self._refused: tuple[Reason, ...] = ()
        self._paper: IssuedPaper | None = None
        self._is_replaced = False
        self._copy = ""
        self._folder = ""
        self._signing = SigningActions(session, host)
        self._papers = PaperMaker(self, host.say, self._made)
        self._ticks: Timer | None = None
        self._put_right: tuple[Paragraph, ...] = ()
        """Reports that this paper, the last one they waited for, has put right."""

    def compose(self) -> ComposeResult:
        yield PickList(classes="step", lines_a_row=3)
        yield ReadingPage(id="about")

    def show_job(self) -> None:
        """List the parts to sign, and the reasons of the last refusal that still hold."""
        job, assessment = self.session.job, self.session.assessment
        if job is None or assessment is None:
            return
        self._refused = tuple(reason for reason in self._refused if reason in assessment.reasons)
        if job.issued:
            self._look_up_paper()
        self._list(job, assessment)

    def go_to(self, place: Place) -> None:
        """Put the cursor on a part to sign."""
        self.query_one(PickList).go_to(place.box)

    def where(self) -> Place | None:
        """The part under the cursor."""
        role = self._role
        return Place(section="signatures", box=role) if role else None

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:  # noqa: ARG002
        """What is issued is only corrected; what is not is signed, drafted and issued."""
        is_issued = bool(self.job and self.job.issued)
        if self._papers.is_making and action in _WAITING:
            return False
        if action == "correct":
            return is_issued and not self._is_replaced
        if action in {"pack_again", "mail", "verify_file"}:
            return is_issued
        if action == "say_why":
            return bool(self.job and self.job.replaces and not is_issued)
        if action == "sign_all":
            return bool(self.job and self.job.profile.one_may_sign_all and not is_issued)
        return not is_issued if action in {"do_row", "unsign", "draft", "issue", "lay_aside"} else True

    @on(PickList.Moved)
    def show_one(self) -> None:
        """Say what the part under the cursor declares, or what was issued."""
        if self.job is None:
            return
        page = self.query_one(ReadingPage)
        if self._paper:
            told = about_issued(self.job, self._paper, self._copy, self._is_replaced)
            page.show([*self._put_right, *told])
        elif role := self._role:
            page.show(about_role(self.job, role))
        elif reason := self._reason:
            page.show(about_reason(reason))

    def action_do_row(self) -> None:
        """Sign for the part under the cursor, or go to the place of a reason."""
        role, reason = self._role, self._reason
        if role:
            self._signing.sign(role)
        elif reason:
            self.host.visit_reason(reason, reason.says)

    def action_sign_all(self) -> None:
        """One person signs for every part, after saying so."""
        self._signing.sign_all()

    def action_unsign(self) -> None:
        """Take the signature under the cursor back."""
        self._signing.take_back(self._role)

    def action_lay_aside(self) -> None:
        """Lay the draft aside, or take it up again."""
        turn_aside(self.session, self.host.say)

    def action_draft(self) -> None:
        """Ask for a folder, and print a draft to it."""
        self.host.ohmfolio.services.ready_paper()
        asked = forms.draft_line(self.host.ohmfolio.services.packs)
        self.host.ask(asked, lambda typed: self._make(typed, draft_of, "the draft"))

    def action_issue(self) -> None:
        """Say everything that keeps the paper back; or ask for a folder, and issue."""
        services = self.host.ohmfolio.services
        if self.job is None:
            return
        answer = issue(
            self.job, by=self.host.ohmfolio.naming.name, at=services.now(), people=self.session.signers_of(self.job)
        )
        if isinstance(answer, Refusal):
            self._show_refusal(answer)
            return
        if not self.host.ohmfolio.naming.given:
            self._ask_who_issues(self.job)
            return
        services.ready_paper()
        self.host.ask(forms.issue_line(answer, self.job, services.packs), self._issue)

    def _issue(self, folder: str, *, earlier: bool = False) -> None:
        self._folder = folder
        self._make(folder, partial(pack_of, earlier=earlier), "the pack")

    def _ask_who_issues(self, job: Job) -> None:
        """Ask once for the name that papers say they were issued by; the login is no name."""
        naming = self.host.ohmfolio.naming

        def name_them(name: str) -> None:
            naming.note(name)
            if naming.given:
                self.action_issue()

        self.host.ask(forms.who_issues_line(job, self.session.signers_of(job)), name_them)

    def action_correct(self) -> None:
        """Begin a new document that will replace this one."""
        self.host.ask(forms.correction_line(self.session.number), self._begin_correction)

    def action_say_why(self) -> None:
        """Say in other words why the earlier document is replaced."""
        if self.job:
            self.host.ask(forms.why_line(self.job), self._say_why)

    def action_pack_again(self) -> None:
        """Ask for a folder, and put the pack there as it was issued."""
        asked = forms.pack_again_line(self.host.ohmfolio.services.packs)
        self.host.ask(asked, lambda typed: self._make(typed, pack_again, "the pack"))

    def action_mail(self) -> None:
        """Ask for the folder of the pack, and put a letter beside it that it can be sent with."""
        self.host.ask(
            forms.mail_line(self.host.ohmfolio.services.packs), lambda typed: self._make(typed, mail_of, "the letter")
        )

    def action_verify_file(self) -> None:
        """Ask for a file, and say whether it is as it was issued."""
        asked = forms.verify_line(self._paper.kept if self._paper else "")
        self.host.ask(asked, lambda typed: self._make(typed, verified, "sure"))

    def _made(self, attempt: Attempt) -> None:
        """Show what became of the draft or the pack."""
        if self._ticks:
            self._ticks.stop()
        log = self.host.ohmfolio.services.log
        if attempt.refusal:
            self._show_refusal(attempt.refusal)
            return
        self.show_one()
        if attempt.proof:
            self.query_one(ReadingPage).show(about_proof(attempt.proof))
        elif attempt.issued and (job := log.load(self.session.number)):
            self._copy = attempt.copy
            self.session.take(job)
            self.host.show_keys()
            self._tell_put_right()
        elif self._paper is None:
            self.query_one(ReadingPage).show([Paragraph(attempt.says, theme.HEAD)])
        self.say(attempt.says, bad=attempt.is_trouble)

    @property
    def _role(self) -> Role | None:
        row = self.query_one(PickList).at
        return Role(row.id) if row and row.id in set(Role) else None

    @property
    def _reason(self) -> Reason | None:
        row = self.query_one(PickList).at
        return next((each for at, each in enumerate(self._refused) if row and reason_id(at) == row.id), None)

    def _list(self, job: Job, assessment: JobAssessment) -> None:
        self.set_class(bool(self._refused), "-refused")
        self.set_class(bool(job.issued), "-issued")
        self.query_one(PickList).show(
            [*rows_of(job, assessment, self._refused), *owed_rows(self.host.ohmfolio.services.log, job)]
        )
        self.show_one()

    def _look_up_paper(self) -> None:
        log = self.host.ohmfolio.services.log
        try:
            self._paper, line = log.issued(self.session.number), log.line(self.session.number)
            self._is_replaced = line is not None and line.state is State.REPLACED
        except JobLogError as error:
            self.say(str(error), bad=True)

    def _show_refusal(self, refusal: Refusal) -> None:
        self._refused = refusal.reasons
        if [each.kind for each in refusal.reasons] == [ReasonKind.EARLIER]:
            self.host.confirm(forms.earlier_question(refusal), lambda: self._issue(self._folder, earlier=True))
        if self.job and self.session.assessment:
            self._list(self.job, self.session.assessment)
            self.query_one(PickList).go_to(reason_id(0))
        count = len(refusal.reasons)
        self.say(f"Not issued: {count} thing{'s' if count > 1 else ''} to settle; Enter goes to the place", bad=True)

    def _tell_put_right(self) -> None:
        """Name the reports that waited for this paper."""
        try:
            reports = self.host.ohmfolio.services.log.reports_put_right(self.session.number)
        except JobLogError as error:
            self.say(str(error), bad=True)
            return
        self._put_right = tuple(Paragraph(f"Report put right by it: {each}", theme.GOOD) for each in reports)
        self.show_one()

    def _make(self, folder: str, make: Make, what: str) -> None:
        job = self.job
        if job is None or self._papers.is_making:
            return
        services, seconds = self.host.ohmfolio.services, count(1)
        self._ticks = self.set_interval(1, lambda: self.say(making(what, next(seconds), services.doing_now())))
        self._papers.make(folder, lambda path: make(job, path, services), what)

    def _say_why(self, because: str) -> None:
        if self.job and self.do(SayWhy(because=because)):
            self.say(f"Replaces {self.job.replaces} because: {self.job.replaces_because}")

    def _begin_correction(self, because: str) -> None:
        services = self.host.ohmfolio.services
        try:
            begun = services.log.replace(self.session.number, because=because, who=services.who, at=services.now())
        except JobLogError as error:
            self.say(str(error), bad=True)
            return
        if isinstance(begun, Declined):
            self.say(begun.says, bad=True)
        else:
            says = f"{begun.number} will replace {self.session.number}"
            self.host.ohmfolio.open_step(begun.number, JobPage.REVIEW, says=says)
