"""SigningActions for the parts of a paper: by whom it may be, and when it is time to."""

from collections.abc import Mapping

from domain.editing.commands import Sign, Unsign
from domain.gate.reason import ReasonKind
from domain.job.job import Job, fingerprint
from domain.job.signature import Role
from domain.log.job_log import JobLogError
from domain.register.signing import SigningVerdict
from tui.keys import key_name
from tui.screens.dialogs import ConfirmScreen
from tui.screens.issue_forms import confirm_all, phrase_line, signing_all_form, signing_form
from tui.screens.issue_text import ANYBODY
from tui.screens.job_session import JobSession
from tui.screens.job_step import StepHost

_WHO_TESTED = frozenset({Role.INSPECTION, Role.INSPECTED, Role.MINOR_WORKS})
"""Parts that are signed by whoever took the readings, as a rule."""


def tester(job: Job) -> str:
    """Who took the readings of every board; "" where it was more than one, or nobody is named."""
    names = {board.tested_by.strip() for board in job.boards}
    return names.pop() if len(names) == 1 else ""


class SigningActions:
    """Asks who signs, and has it done where the register of people lets them."""

    def __init__(self, session: JobSession, host: StepHost) -> None:
        self._session = session
        self._host = host

    def sign(self, role: Role) -> None:
        """Ask who signs for one part."""
        job = self._session.job
        if job and self._is_to_be_signed():
            form = signing_form(
                job, role, self._host.ohmfolio.naming.given or (tester(job) if role in _WHO_TESTED else "")
            )
            self._host.ask(form, lambda name: self._sign_if_allowed((role,), name))

    def sign_all(self) -> None:
        """Ask who signs for every part."""
        job = self._session.job
        if job and self._is_to_be_signed():
            form = signing_all_form(job, self._host.ohmfolio.naming.given or tester(job))
            self._host.ask(form, lambda name: self._confirm_all(job, name))

    def take_back(self, role: Role | None) -> None:
        """Take a signature back; says so where there is none."""
        job = self._session.job
        if role and job and any(each.role is role for each in job.signatures):
            if self._session.do(Unsign(role=role)):
                self._host.say(f"No longer signed: {role}")
        else:
            self._host.say("There is no signature to take back")

    def _is_to_be_signed(self) -> bool:
        """All else is settled; says what is not. A signature given before would be lifted by the next change."""
        open_yet = (
            [each for each in self._session.assessment.reasons if each.kind is not ReasonKind.SIGNATURE]
            if self._session.assessment
            else []
        )
        if not open_yet:
            return True
        count = f"{len(open_yet)} things are" if len(open_yet) > 1 else "One thing is"
        self._host.say(f"Not to be signed yet: {count} still open. {open_yet[0].says}", bad=True)
        return False

    def _confirm_all(self, job: Job, name: Mapping[str, str]) -> None:
        self._host.confirm(confirm_all(job, name["name"]), lambda: self._sign_if_allowed(job.roles, name))

    def _sign_if_allowed(self, roles: tuple[Role, ...], name: Mapping[str, str]) -> None:
        """Sign where the register of people lets them; a name it does not know signs after a question."""
        try:
            known, may = self._host.ohmfolio.services.log.may_sign(name["name"], roles)
        except JobLogError as error:
            self._host.say(str(error), bad=True)
            return
        full = {"position": known.position, **{key: text for key, text in name.items() if text}} if known else name
        if may.verdict is SigningVerdict.NO:
            self._host.say(may.says, bad=True)
        elif may.verdict is SigningVerdict.ASK:
            self._host.confirm(ConfirmScreen(may.says), lambda: self._ask_phrase(roles, full))
        else:
            self._ask_phrase(roles, full)

    def _ask_phrase(self, roles: tuple[Role, ...], name: Mapping[str, str]) -> None:
        """Have whoever set a signing phrase give it; it is kept nowhere on its way to the log."""
        if self._host.ohmfolio.services.log.phrase_asked(name["name"]):
            self._host.ask(phrase_line(name["name"]), lambda phrase: self._sign(roles, name, phrase))
        else:
            self._sign(roles, name)

    def _sign(self, roles: tuple[Role, ...], name: Mapping[str, str], phrase: str = "") -> None:
        at, seen = self._host.ohmfolio.services.now(), fingerprint(self._session.job) if self._session.job else ""
        for role in roles:
            command = Sign(role=role, name=name["name"], position=name["position"], at=at, seen=seen)
            if not self._session.do(command, phrase):
                return
        self._host.ohmfolio.naming.note(name["name"])
        left = len(self._session.assessment.unsigned) if self._session.assessment else 0
        then = f"{left} still to be signed" if left else f"Press {key_name('issue-now')} to issue the pack"
        unproven = "" if phrase else f" {ANYBODY}."
        self._host.say(f"Signed. {then}.{unproven}")
