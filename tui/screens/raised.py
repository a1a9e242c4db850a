"""What people raised: the snagging list of a certificate, or the observations of a report."""

from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType

from domain.editing.beside import at_the_same_place, certificate_beside
from domain.editing.commands import ReopenSnag, Withdraw
from domain.gate.answered import guidance_on, open_failures
from domain.inspection.codes.guidance import Guidance
from domain.inspection.observation import Observation
from domain.job.snag import Snag
from domain.log.job_log import JobLogError
from domain.log.put_right.remedial_status import can_be_put_right
from domain.place import Place
from tui import theme
from tui.job_page import JobPage
from tui.keys import bindings, key_name
from tui.routes import Origin, ToPutRight, ToRemedy
from tui.screens.dialogs import ConfirmScreen
from tui.screens.edit_forms import cleared, clearing_form, observation_form, observed, raised, snag_form
from tui.screens.job_step import JobStep
from tui.screens.observing import ask_observation
from tui.screens.picturing import ask_picture, pictures_at, take_out, told
from tui.screens.raised_text import about_raised, observation_rows, snag_rows
from tui.screens.raising import tick_answers
from tui.widgets.pick_list import PickList
from tui.widgets.text_page import Paragraph, TextPage


class RaisedStep(JobStep):
    """A list with all of it, and the one under the cursor in full."""

    PAGE = JobPage.RAISED
    EXPLAINS: ClassVar[str] = (
        "On a certificate: the snagging list. A snag is raised by a person and cleared by a person, with a word on"
        " how it was put right; while one is open, the certificate is not issued. On a report: the observations,"
        " each with one classification code of your own judgement; C1 or C2 make the report unsatisfactory, FI by the edition."
        f" {key_name('beside')} begins the certificate for what was put right on the same visit."
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(
        "raised-open",
        "raise",
        "clear",
        "reopen",
        "withdraw",
        "answers",
        "go-there",
        "put-right",
        "beside",
        "picture",
        "picture-out",
    )
    SCOPED_CSS = False
    DEFAULT_CSS = """
    RaisedStep > #about { height: 8; padding: 0 1; }
    .-broad RaisedStep > #about { height: 6; }
    """

    def compose(self) -> ComposeResult:
        yield PickList(classes="step", lines_a_row=2, empty=f"Nothing raised. {key_name('raise')} raises the first.")
        yield TextPage(id="about")

    def show_job(self) -> None:
        """List what was raised, open first, the worst code first."""
        if job := self.job:
            self.query_one(PickList).show(observation_rows(job) if job.profile.takes_observations else snag_rows(job))
            self.show_one()
            self.host.show_keys()

    def go_to(self, place: Place) -> None:
        """Put the cursor on a snag or an observation."""
        self.query_one(PickList).go_to(place.snag or place.observation)

    def where(self) -> Place | None:
        """The snag or observation under the cursor."""
        if snag := self._snag:
            return Place(snag=snag.id)
        return Place(observation=each.id) if (each := self._observation) else None

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:  # noqa: ARG002
        """Snags are cleared and reopened; observations are withdrawn; with nothing raised there is only raising; of what is issued none."""
        if action in {"clear", "reopen", "withdraw", "answers", "go_there"} and not self._has_any:
            return False
        if action in {"raise", "clear", "reopen", "withdraw", "answers"} and self.job and self.job.issued:
            return False
        observes = bool(self.job and self.job.profile.takes_observations)
        if action == "put_right":
            return bool(self.job and can_be_put_right(self.job))
        if action in {"clear", "reopen"}:
            return not observes
        return observes if action in {"withdraw", "answers", "beside"} else True

    @property
    def _pictured(self) -> Place | None:
        return Place(observation=each.id) if (each := self._observation) else None

    @on(PickList.Moved)
    def show_one(self) -> None:
        """Show the one under the cursor in full."""
        if self.job:
            failing = open_failures(self.job, assessment.findings) if (assessment := self.session.assessment) else ()
            pictured = [Paragraph(told(each), theme.QUIET) for each in pictures_at(self.job, self._pictured)]
            about = about_raised(self.job, self._snag, self._observation, len(failing))
            self.query_one("#about", TextPage).show([*about, *pictured])

    def action_picture(self) -> None:
        """Take a picture in."""
        ask_picture(self, self._pictured)

    def action_picture_out(self) -> None:
        """Take its last picture out."""
        take_out(self, self._pictured)

    def action_open(self) -> None:
        """Clear the snag, or rewrite the observation, under the cursor."""
        if self._observation:
            if self.host.may_type():
                self._write(self._observation)
        elif self._snag and self._snag.is_open:
            self.action_clear()
        elif self._snag:
            self.action_reopen()
        else:
            self.action_raise_one()

    def action_raise_one(self) -> None:
        """Raise a snag or an observation."""
        if not self.host.may_type():
            return
        if self.job and self.job.profile.takes_observations:
            self._write(None)
            return
        services = self.host.ohmfolio.services
        form = snag_form(self.host.ohmfolio.naming.name)
        self.host.ask_named(form, lambda typed: raised(typed, services.now().date()), self._to_newest)

    def action_clear(self) -> None:
        """Clear the snag under the cursor."""
        if not self.host.may_type():
            return
        snag, services = self._snag, self.host.ohmfolio.services
        if snag is None or not snag.is_open:
            self.say(
                f"It is cleared already; {key_name('reopen')} opens it again" if snag else "There is no snag to clear"
            )
            return
        form = clearing_form(snag, self.host.ohmfolio.naming.name)
        self.host.ask_named(form, lambda typed: cleared(snag, typed, services.now().date()))

    def action_reopen(self) -> None:
        """Open a cleared snag again, after a question."""
        if not self.host.may_type():
            return
        snag = self._snag
        if snag is None or snag.is_open:
            self.say("It is open" if snag else "There is no snag to open again")
            return
        question = ConfirmScreen(f"Open again: {snag.what}?", "Who cleared it, when and how is then no longer shown.")
        self.host.confirm(question, lambda: self.do(ReopenSnag(snag=snag.id)))

    def action_withdraw(self) -> None:
        """Take the observation under the cursor away, after a question."""
        if (each := self._observation) and self.host.may_type():
            question = ConfirmScreen(f"Withdraw this {each.code}?", each.finding)
            self.host.confirm(question, lambda: self.do(Withdraw(observation=each.id)))

    def action_answers(self) -> None:
        """Tick which failures the observation under the cursor answers."""
        if (each := self._observation) and self.host.may_type():
            tick_answers(self, each)

    def action_go_there(self) -> None:
        """Go to the place it was raised about."""
        one = self._snag or self._observation
        answered = next(iter(self._observation.answers), None) if self._observation else None
        if place := answered or (one.about if one else None):
            self.host.visit(place)
        elif self._observation and self._observation.items:
            self.host.visit(Place(section="inspection", item=self._observation.items[0]))
        else:
            self.say("It was not raised about one place of the forms")

    def action_put_right(self) -> None:
        """Show how far what the report found has been put right."""
        if self.job:
            self.host.ohmfolio.go(ToPutRight(self.job))

    def action_beside(self) -> None:
        """Begin the certificate for what was put right on this visit; where it is not known which, ask."""
        job, ohmfolio = self.job, self.host.ohmfolio
        if job is None:
            return
        services = ohmfolio.services
        certificate = certificate_beside(job, on=services.now().date())
        if certificate is None:
            what = f"Put right on the visit of {job.number}: what was done?"
            ohmfolio.go(ToRemedy(what, Origin(lambda begun: at_the_same_place(begun, job), lambda _: None)))
            return
        try:
            kept = services.log.create(certificate, who=services.who, at=services.now())
        except JobLogError as error:
            self.say(f"Not begun. {error}", bad=True)
            return
        ohmfolio.open_job(kept.number)

    @property
    def _has_any(self) -> bool:
        return bool(self.job and (self.job.snags or self.job.observations))

    @property
    def _snag(self) -> Snag | None:
        row = self.query_one(PickList).at
        return next((snag for snag in self.job.snags if row and snag.id == row.id), None) if self.job else None

    @property
    def _observation(self) -> Observation | None:
        row = self.query_one(PickList).at
        return next((each for each in self.job.observations if row and each.id == row.id), None) if self.job else None

    def _write(self, before: Observation | None) -> None:
        then = None if before else self._to_newest
        ask_observation(
            self, observation_form(before, known=self._known(before)), lambda typed: observed(typed, before), then
        )

    def _known(self, observation: Observation | None) -> Guidance | None:
        """The guidance on the first failure that it answers."""
        assessment = self.session.assessment
        answered = (
            [each for each in assessment.findings if observation and each.place in observation.answers]
            if assessment
            else []
        )
        return next(filter(None, map(guidance_on, answered)), None)

    def _to_newest(self) -> None:
        if self.job:
            newest = (*self.job.snags, *self.job.observations)[-1:]
            self.query_one(PickList).go_to(newest[0].id if newest else "")
