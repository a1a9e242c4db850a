"""What was found at the same address before, beside what is found now."""

from collections.abc import Callable, Iterable
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType

from domain.editing.carrying import carried_in, details_of
from domain.editing.commands import Command
from domain.job.job import Job
from domain.log.job_log import JobLogError
from domain.log.last_time.comparing import ReadingTrend, came_back, changes_of
from domain.log.last_time.history import Earlier, History, history_of, linking
from domain.log.last_time.matching import Match
from domain.log.last_time.notes import MatchNote, topic_of
from domain.log.last_time.trend import trend_of
from domain.log.search_words import number_written
from domain.place import Place
from tui.keys import bindings, key_name
from tui.routes import ToMatch, ToReadings
from tui.screens.dialogs import ConfirmScreen, LineScreen
from tui.screens.last_time_text import CIRCUIT, about_change, about_circuit, about_code, heading, rows_of
from tui.screens.page import Page
from tui.widgets.pick_list import PickList
from tui.widgets.text_page import Paragraph, TextPage

_WHAT_COMES = {
    True: "Supply, earthing, main switch, boards, wiring and devices",
    False: f"Supply, earthing and main switch (for the circuit too, say first with {key_name('last-match')} which it was)",
}
_NO_CIRCUIT = "Only circuits are matched; come to one of them first"


class LastTimeScreen(Page):
    """One earlier visit at a time: what deserves a question, then circuit by circuit."""

    EXPLAINS: ClassVar[str] = (
        "Earlier papers on this address, found by postcode and number, or linked by hand. First what deserves a"
        " question: insulation down by more than half; a resistance up by more than two testers (5 % and 0.03 ohm"
        " each) and conductors 20 degrees warmer explain; an RCD slower by more than 10 ms and a tenth; a code that"
        " came back. These widths are common practice, not limits: judge for yourself. Then each circuit with the one"
        " it was, matched by what it feeds, device, rating and cable: confirm it, or pick another. Details can be"
        " carried over, to be checked on site; readings never are."
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(
        *("last-open", "last-confirm", "last-all", "last-match", "last-older", "last-newer", "last-carry", "last-link"),
        *("back", "palette", "leave", "help"),
    )
    DEFAULT_CSS = """
    LastTimeScreen > #head { height: 1; padding: 0 1; }
    LastTimeScreen > PickList { height: 1fr; }
    LastTimeScreen > #about { height: 8; padding: 0 1; border-top: solid ansi_default; }
    """

    def __init__(self, job: Job, do: Callable[[Command], bool]) -> None:
        super().__init__()
        self.job = job
        self._do = do
        self._history = History()
        self._number = ""
        self._matches: tuple[Match, ...] = ()
        self._changes: tuple[ReadingTrend, ...] = ()

    def compose_page(self) -> ComposeResult:
        yield TextPage(id="head")
        yield PickList(
            lines_a_row=2,
            empty=f"No earlier paper on this address is known. {key_name('last-link')} links one by its number.",
        )
        yield TextPage(id="about")

    def on_mount(self) -> None:
        """Look up the earlier visits."""
        self.query_one(PickList).focus()
        self._load()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:  # noqa: ARG002
        """With no visit beside the job there is only one to link."""
        if action == "turn":
            return len(self._history.visits) > 1
        needs_a_visit = {"open", "confirm", "confirm_all", "match", "carry_over"}
        return self.earlier is not None or action not in needs_a_visit

    @property
    def earlier(self) -> Earlier | None:
        """The visit that is laid beside the job."""
        visits = self._history.visits
        return self._history.visit(self._number) or (visits[0] if visits else None)

    @on(PickList.Moved)
    def show_one(self) -> None:
        """Tell the line under the cursor in full."""
        earlier, row = self.earlier, self.query_one(PickList).at
        paragraphs: Iterable[Paragraph] = ()
        if earlier and row:
            if row.id.startswith("code "):
                paragraphs = about_code(came_back(self.job, earlier.job)[int(row.id[5:])])
            elif change := self._change:
                paragraphs = about_change(self.job, change, trend_of(self._history, self.job, change.place))
            elif match := self._match:
                paragraphs = about_circuit(self.job, earlier, match, self._of(match))
        self.query_one("#about", TextPage).show(paragraphs)

    def action_open(self) -> None:
        """Every reading of the circuit, board or page under the cursor."""
        match, change = self._match, self._change
        if match:
            changes = self._of(match)
        elif change:
            changes = tuple(each for each in self._changes if _owner(each.place) == _owner(change.place))
        else:
            return
        self.ohmfolio.go(ToReadings(self.job, self._history, changes))

    def action_confirm(self) -> None:
        """The two circuits are the same, or there was none."""
        if match := self._match:
            self._say_of(match, match.was)
        else:
            self.say(_NO_CIRCUIT)

    def action_confirm_all(self) -> None:
        """Every pair is the same, after a question."""
        open_ones = [match for match in self._matches if not match.confirmed]
        if not open_ones:
            self.say("Every circuit is confirmed already")
            return
        question = ConfirmScreen(
            f"Are all {len(open_ones)} pairs the same circuits?", f"{key_name('last-match')} picks another for one."
        )
        self.confirm(question, lambda: [self._say_of(match, match.was) for match in open_ones])

    def action_match(self) -> None:
        """Pick the circuit it was."""
        earlier, match = self.earlier, self._match
        if earlier and match:
            circuit = next(each for _, each in self.job.circuits() if each.id == match.circuit)
            self.ohmfolio.go(ToMatch(circuit, earlier, match.was, lambda was: self._say_of(match, was)))
        else:
            self.say(_NO_CIRCUIT)

    def action_turn(self, by: int) -> None:
        """Another visit."""
        visits, earlier = self._history.visits, self.earlier
        at = visits.index(earlier) + by if earlier else -1
        if not 0 <= at < len(visits):
            self.say("There is no older visit" if by > 0 else "This is the newest visit")
            return
        self._number = visits[at].number
        self._show()

    def action_carry_over(self) -> None:
        """Take details over, after a question."""
        earlier = self.earlier
        if earlier is None:
            return
        if self.job.issued:
            self.say("It has been issued and is no longer changed", bad=True)
            return
        one = self._circuit_it_was if self.job.profile.covers_one_circuit else ""
        which = (
            f"Supply, earthing, main switch and {one}" if one else _WHAT_COMES[not self.job.profile.covers_one_circuit]
        )
        question = ConfirmScreen(
            f"Carry the details of {earlier.number} over?",
            f"{which}, where nothing is typed yet. Readings, ticks and dates are not. What is carried over is to be"
            " checked on site.",
        )
        self.confirm(question, lambda: self._carry(earlier))

    def action_link(self) -> None:
        """Ask for the number of an earlier paper."""
        self.ask(LineScreen("Number of the earlier paper", "", "As this log gave it, such as A-0003."), self._link)

    def action_back(self) -> None:
        """Back to the job."""
        self.ohmfolio.pop_screen()

    @property
    def _was(self) -> str:
        """The earlier circuit that a minor works is matched with, or the only one there was; "" where it is open."""
        if any(match.was or match.confirmed for match in self._matches):
            return next((match.was for match in self._matches if match.was), "")
        circuits = self.earlier.job.circuits() if self.earlier else ()
        return circuits[0][1].id if len(circuits) == 1 else ""

    @property
    def _circuit_it_was(self) -> str:
        earlier = self.earlier
        circuits = earlier.job.circuits() if earlier else ()
        return next((f"circuit {circuit.name}" for _, circuit in circuits if circuit.id == self._was), "")

    @property
    def _match(self) -> Match | None:
        row = self.query_one(PickList).at
        return next((each for each in self._matches if row and row.id == f"{CIRCUIT}{each.circuit}"), None)

    @property
    def _change(self) -> ReadingTrend | None:
        row = self.query_one(PickList).at
        asked = [change for change in self._changes if change.asks]
        return next((each for at, each in enumerate(asked) if row and row.id == f"ask {at}"), None)

    def _of(self, match: Match) -> tuple[ReadingTrend, ...]:
        return tuple(change for change in self._changes if change.place.circuit == match.circuit)

    def _say_of(self, match: Match, was: str) -> None:
        earlier = self.earlier
        if earlier and self._note(MatchNote(earlier=earlier.number, circuit=match.circuit, was=was)):
            self.say("Noted")

    def _link(self, typed: str) -> None:
        try:
            note = linking(self.ohmfolio.services.log, self.job, number_written(typed))
        except JobLogError as error:
            self.say(str(error), bad=True)
            return
        if isinstance(note, str):
            self.say(note, bad=True)
        elif self._note(note):
            self._number = note.earlier
            self._show()

    def _note(self, note: MatchNote) -> bool:
        services = self.ohmfolio.services
        try:
            services.log.add_note(
                topic_of(self.job.number), note.model_dump_json(), who=services.who, at=services.now()
            )
        except JobLogError as error:
            self.say(f"Not saved. {error}", bad=True)
            return False
        self._load()
        return True

    def _carry(self, earlier: Earlier) -> None:
        before, details = self.job, details_of(earlier.job)
        if before.profile.covers_one_circuit:
            details = details_of(earlier.job, self._was) if self._was else details.model_copy(update={"boards": ()})
        if not self._do(details):
            self.say("Not carried over; the job says why", bad=True)
            return
        self._load()
        if boxes := carried_in(before, self.job):
            says = "1 box" if boxes == 1 else f"{boxes} boxes"
            self.say(f"{says} carried over from {earlier.number}; not confirmed yet, check each on site")
        else:
            self.say(f"Nothing carried over: no empty box here is filled on {earlier.number}")

    def _load(self) -> None:
        log = self.ohmfolio.services.log
        try:
            self.job = log.load(self.job.number) or self.job
            self._history = history_of(log, self.job)
        except JobLogError as error:
            self.say(str(error), bad=True)
            return
        self._show()

    def _show(self) -> None:
        earlier = self.earlier
        if earlier:
            self._matches = self._history.matches(self.job, earlier)
            self._changes = changes_of(self.job, earlier.job, self._matches)
            rows = rows_of(self.job, earlier, self._matches, self._changes)
            self.query_one(PickList).show(rows)
        self.query_one("#head", TextPage).show([heading(self.job, earlier, self._history.visits)])
        self.show_one()
        self.show_keys()


def _owner(place: Place) -> tuple[str, str, str]:
    return place.section, place.board, place.circuit
