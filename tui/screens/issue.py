"""Signatures, the draft, and issuing the pack."""

from collections.abc import Callable, Mapping
from itertools import count
from pathlib import Path
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.timer import Timer

from domain.editing.commands import Declined, SayWhy, Sign, Unsign
from domain.gate.assessment import JobAssessment, Refusal, issue
from domain.gate.issued_paper import IssuedPaper
from domain.gate.reason import Hold, Reason
from domain.job.job import Job, fingerprint
from domain.job.signature import Role
from domain.log.job_log import JobLogError, State
from domain.place import Place
from domain.register.signing import SigningVerdict
from tui import theme
from tui.job_page import JobPage
from tui.keys import bindings
from tui.screens.dialogs import ConfirmScreen, FormScreen, LineScreen
from tui.screens.issue_text import (
    ANYBODY,
    about_issued,
    about_proof,
    about_reason,
    about_role,
    declaration,
    reason_id,
    rows_of,
)
from tui.screens.job_screen import JobScreen
from tui.screens.paper_maker import PaperMaker
from tui.screens.paper_making import Attempt, draft_of, pack_again, pack_of, verified
from tui.services import Services
from tui.widgets.entry_lines import AskedLine
from tui.widgets.pick_list import PickList
from tui.widgets.text_page import Paragraph, ReadingPage

Make = Callable[[Job, Path, Services], Attempt]


_WAITING = {"do_row", "sign_all", "unsign", "draft", "issue", "correct", "pack_again", "verify_file", "say_why"}
"""What waits until the paper that is being made is there."""


class IssueScreen(PaperMaker, JobScreen):
    """The parts to be signed with their signatures; after a refusal, its reasons; once issued, the paper."""

    STEP = JobPage.ISSUE
    EXPLAINS: ClassVar[str] = (
        "Every part is signed by whoever answers for it; what is declared stands below. Signatures are lifted when"
        " the job changes after them. A draft can be printed at any time. Issuing says everything that keeps the"
        " paper back, or makes the pack: after that nothing in it can be changed, only replaced by a correction."
        " Tab goes to the text below, to scroll it."
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(
        "row-do", "sign-all", "unsign", "draft", "issue-now", "correct", "say-why", "pack-again", "verify-file"
    )
    DEFAULT_CSS = """
    IssueScreen > #about { height: 10; padding: 0 1; }
    IssueScreen.-refused > #about { height: 4; }
    """

    def __init__(self, number: str, place: Place | None = None) -> None:
        super().__init__(number, place)
        self._refused: tuple[Reason, ...] = ()
        self._paper: IssuedPaper | None = None
        self._is_replaced = False
        self._copy = ""
        self._ticks: Timer | None = None
        self._put_right: tuple[Paragraph, ...] = ()
        """Reports that this paper, the last one they waited for, has put right."""

    def compose_step(self) -> ComposeResult:
        yield PickList(classes="step", lines_a_row=2)
        yield ReadingPage(id="about")

    def show_job(self, job: Job, stands: JobAssessment) -> None:
        """List the parts to sign, and the reasons of the last refusal that still hold."""
        self._refused = tuple(reason for reason in self._refused if reason in stands.reasons)
        if job.issued:
            self._look_up_paper()
        self._list(job, stands)

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
        if self.is_making and action in _WAITING:
            return False
        if action == "correct":
            return is_issued and not self._is_replaced
        if action in {"pack_again", "verify_file"}:
            return is_issued
        if action == "say_why":
            return bool(self.job and self.job.replaces and not is_issued)
        if action == "sign_all":
            return bool(self.job and self.job.profile.one_may_sign_all and not is_issued)
        return not is_issued if action in {"do_row", "unsign", "draft", "issue"} else True

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
        role, reason, job = self._role, self._reason, self.job
        if role and job and not self._is_to_be_signed():
            return
        if role and job:
            self._ask_name(
                f"Sign for {role}", declaration(job, role), lambda name: self._sign_if_allowed((role,), name)
            )
        elif reason:
            self.visit_reason(reason, reason.says)

    def action_sign_all(self) -> None:
        """One person signs for every part, after saying so."""
        if self.job and self._is_to_be_signed():
            roles = self.job.roles
            declared = "\n".join(dict.fromkeys(declaration(self.job, role) for role in roles))
            about = f"Only where one person answers for {', '.join(roles[:-1])} and {roles[-1]}.\n{declared}"
            self._ask_name("One person signs for every part", about, lambda name: self._confirm_all(roles, name))

    def _is_to_be_signed(self) -> bool:
        """All else is settled; says what is not. A signature given before would be lifted by the next change."""
        open_yet = [each for each in self.stands.reasons if each.kind is not Hold.SIGNATURE] if self.stands else []
        if not open_yet:
            return True
        count = f"{len(open_yet)} things are" if len(open_yet) > 1 else "One thing is"
        self.say(f"Not to be signed yet: {count} still open. {open_yet[0].says}", bad=True)
        return False

    def action_unsign(self) -> None:
        """Take the signature under the cursor back."""
        role = self._role
        if role and self.job and any(each.role is role for each in self.job.signatures):
            if self.do(Unsign(role=role)):
                self.say(f"No longer signed: {role}")
        else:
            self.say("There is no signature to take back")

    def action_draft(self) -> None:
        """Ask for a folder, and print a draft to it."""
        folder = str(self.ohmfolio.desk.packs)
        about = "DRAFT stands on every page. A draft is no certificate and no report."
        question = LineScreen("Folder for the draft", folder, about)
        self.ohmfolio.desk.ready_paper()
        self.ask(question, lambda typed: self._make(typed, draft_of, "the draft"))

    def action_issue(self) -> None:
        """Say everything that keeps the paper back; or ask for a folder, and issue."""
        desk = self.ohmfolio.desk
        if self.job is None:
            return
        answer = issue(self.job, by=self.ohmfolio.naming.name, at=desk.now(), people=self.signers_of(self.job))
        if isinstance(answer, Refusal):
            self._show_refusal(answer)
            return
        if not self.ohmfolio.naming.given:
            self._ask_who_issues()
            return
        about = (
            f"{self.job.profile.title} {self.job.number}: {answer.outcome}. Once issued it is never changed; a"
            " correction is a new document. Enter issues it, Esc leaves it."
        )
        question = LineScreen("Folder for the pack", str(desk.packs), about)
        desk.ready_paper()
        self.ask(question, lambda typed: self._make(typed, pack_of, "the pack"))

    def _ask_who_issues(self) -> None:
        """Ask once for the name that papers say they were issued by; the login is no name."""
        last = self.job.signatures[-1].name if self.job and self.job.signatures else ""
        people = ", ".join(each.name for each in self.signers_of(self.job)) if self.job else ""
        about = f"It stands on the paper, and is asked once. Signed by people of the register: {people or 'nobody'}."

        def name_them(name: str) -> None:
            self.ohmfolio.naming.note(name)
            if self.ohmfolio.naming.given:
                self.action_issue()

        self.ask(LineScreen("Who issues this paper?", last, about), name_them)

    def action_correct(self) -> None:
        """Begin a new document that will replace this one."""
        about = (
            "A correction starts with all that was issued, readings too; it gets a number of its own and is signed anew."
            " This paper stays in the log. The reason is printed on the new one."
        )
        self.ask(LineScreen(f"Why is {self.number} to be replaced?", "", about), self._begin_correction)

    def action_say_why(self) -> None:
        """Say in other words why the earlier document is replaced."""
        if self.job:
            question = LineScreen(f"Why is {self.job.replaces} to be replaced?", self.job.replaces_because)
            self.ask(question, self._say_why)

    def action_pack_again(self) -> None:
        """Ask for a folder, and put the pack there as it was issued."""
        question = LineScreen("Folder for the pack", str(self.ohmfolio.desk.packs), "The same files as were issued.")
        self.ask(question, lambda typed: self._make(typed, pack_again, "the pack"))

    def action_verify_file(self) -> None:
        """Ask for a file, and say whether it is as it was issued."""
        about = "Any pack, whatever its name: it is compared with the log. First is the log's own copy of this paper."
        question = LineScreen("File to verify", self._paper.kept if self._paper else "", about)
        self.ask(question, lambda typed: self._make(typed, verified, "sure"))

    def made(self, attempt: Attempt) -> None:
        """Show what became of the draft or the pack."""
        if self._ticks:
            self._ticks.stop()
        log = self.ohmfolio.desk.log
        if attempt.refusal:
            self._show_refusal(attempt.refusal)
            return
        self.show_one()
        if attempt.proof:
            self.query_one(ReadingPage).show(about_proof(attempt.proof))
        elif attempt.issued and (job := log.load(self.number)):
            self._copy = attempt.copy
            self.take(job)
            self.show_keys()
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

    def _list(self, job: Job, stands: JobAssessment) -> None:
        self.set_class(bool(self._refused), "-refused")
        self.query_one(PickList).show(rows_of(job, stands, self._refused))
        self.show_one()

    def _look_up_paper(self) -> None:
        log = self.ohmfolio.desk.log
        try:
            self._paper, line = log.issued(self.number), log.line(self.number)
            self._is_replaced = line is not None and line.state is State.REPLACED
        except JobLogError as error:
            self.say(str(error), bad=True)

    def _show_refusal(self, refusal: Refusal) -> None:
        self._refused = refusal.reasons
        if self.job and self.stands:
            self._list(self.job, self.stands)
            self.query_one(PickList).go_to(reason_id(0))
        count = len(refusal.reasons)
        self.say(f"Not issued: {count} thing{'s' if count > 1 else ''} to settle; Enter goes to the place", bad=True)

    def _ask_name(self, question: str, about: str, then: Callable[[Mapping[str, str]], None]) -> None:
        before = self.job.signatures[-1] if self.job and self.job.signatures else None
        lines = (
            AskedLine("name", "Name", before.name if before else self.ohmfolio.naming.given, must=True),
            AskedLine("position", "Position", before.position if before else ""),
        )
        form = FormScreen(question, lines, about)
        self.ask(form, then)

    def _confirm_all(self, roles: tuple[Role, ...], name: Mapping[str, str]) -> None:
        question = f"{name['name']} signs for {', '.join(roles[:-1])} and {roles[-1]}?"
        about = "These are separate declarations; each is recorded as signed by that person."
        self.confirm(ConfirmScreen(question, about), lambda: self._sign_if_allowed(roles, name))

    def _sign_if_allowed(self, roles: tuple[Role, ...], name: Mapping[str, str]) -> None:
        """Sign where the register of people lets them; a name it does not know signs after a question."""
        try:
            known, may = self.ohmfolio.desk.log.may_sign(name["name"], roles)
        except JobLogError as error:
            self.say(str(error), bad=True)
            return
        full = {"position": known.position, **{key: text for key, text in name.items() if text}} if known else name
        if may.verdict is SigningVerdict.NO:
            self.say(may.says, bad=True)
        elif may.verdict is SigningVerdict.ASK:
            self.confirm(ConfirmScreen(may.says), lambda: self._ask_phrase(roles, full))
        else:
            self._ask_phrase(roles, full)

    def _ask_phrase(self, roles: tuple[Role, ...], name: Mapping[str, str]) -> None:
        """Have whoever set a signing phrase give it; it is kept nowhere on its way to the log."""
        if self.ohmfolio.desk.log.phrase_asked(name["name"]):
            about = "A signature is somebody's own act. After three wrong ones there is a pause."
            question = LineScreen(f"Signing phrase of {name['name']}", "", about, secret=True)
            self.ask(question, lambda phrase: self._sign(roles, name, phrase))
        else:
            self._sign(roles, name)

    def _sign(self, roles: tuple[Role, ...], name: Mapping[str, str], phrase: str = "") -> None:
        at, seen = self.ohmfolio.desk.now(), fingerprint(self.job) if self.job else ""
        for role in roles:
            if not self.do(Sign(role=role, name=name["name"], position=name["position"], at=at, seen=seen), phrase):
                return
        self.ohmfolio.naming.note(name["name"])
        left = len(self.stands.unsigned) if self.stands else 0
        unproven = "" if phrase else f" {ANYBODY}."
        self.say(f"Signed. {'Press I to issue the pack' if not left else f'{left} still to be signed'}.{unproven}")

    def _tell_put_right(self) -> None:
        """Name the reports that waited for this paper."""
        try:
            reports = self.ohmfolio.desk.log.reports_put_right(self.number)
        except JobLogError as error:
            self.say(str(error), bad=True)
            return
        self._put_right = tuple(Paragraph(f"Report put right by it: {each}", theme.GOOD) for each in reports)
        self.show_one()

    def _make(self, folder: str, make: Make, what: str) -> None:
        job = self.job
        if job is None or self.is_making:
            return
        seconds = count(1)
        self._ticks = self.set_interval(1, lambda: self.say(f"Making {what} … {next(seconds)} s"))
        self.make(folder, lambda path, desk: make(job, path, desk), what)

    def _say_why(self, because: str) -> None:
        if self.job and self.do(SayWhy(because=because)):
            self.say(f"Replaces {self.job.replaces} because: {self.job.replaces_because}")

    def _begin_correction(self, because: str) -> None:
        desk = self.ohmfolio.desk
        try:
            begun = desk.log.replace(self.number, because=because, who=desk.who, at=desk.now())
        except JobLogError as error:
            self.say(str(error), bad=True)
            return
        if isinstance(begun, Declined):
            self.say(begun.says, bad=True)
        else:
            self.ohmfolio.open_step(begun.number, JobPage.REVIEW, says=f"{begun.number} will replace {self.number}")
