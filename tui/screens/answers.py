"""Which failing readings of a report an observation answers: all that are open, the likely ones first, to tick."""

from collections.abc import Iterator
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.screen import ModalScreen

from domain.gate.answered import offered
from domain.inspection.observation import Observation
from domain.job.finding import Finding
from domain.job.job import Job
from domain.job.place_in_words import described
from domain.place import Place
from tui import theme
from tui.keys import bindings
from tui.screens.dialogs import DIALOG_STYLES, boxed, coach_on, show_answering_keys
from tui.widgets.pick_list import ListCell, ListRow, PickList


class AnswersScreen(ModalScreen[tuple[Place, ...] | None]):
    """Every open failure with a tick or without; hands back the places ticked."""

    EXPLAINS: ClassVar[str] = (
        "Everything that fails on this report and that no other observation answers, likely ones first. Space ticks"
        " what this observation speaks of; Enter keeps the ticks. Its words answer nothing: only what is ticked here,"
        " or was raised from the reading itself, is answered. An observation that answers no reading is general."
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(
        "coach", "palette", "help", "answer-tick", "answers-keep", "answers-leave"
    )
    DEFAULT_CSS = DIALOG_STYLES.format(kind="AnswersScreen") + "AnswersScreen PickList { height: 14; }"

    def __init__(self, job: Job, observation: Observation, findings: tuple[Finding, ...]) -> None:
        super().__init__()
        self.question = f"{observation.code}, {observation.finding}: which of these does it answer?"
        self._job = job
        self._offered = {str(at): each for at, each in enumerate(offered(job, observation, findings))}
        self._ticked = {row for row, each in self._offered.items() if observation.does_answer(each.place)}
        places = [each.place for each in self._offered.values()]
        self._others = tuple(place for place in observation.answers if place not in places)
        """Places that do not fail now; they stay as they are."""

    @property
    def topics(self) -> tuple[str, ...]:
        """What the coach explains here."""
        return ("screen.answers",)

    def compose(self) -> ComposeResult:
        nothing = "Nothing fails that another observation does not answer already."
        yield from boxed(self.question, "", PickList(lines_a_row=2, empty=nothing))

    def on_mount(self) -> None:
        """List them."""
        self.query_one(PickList).show(self._rows())
        self.query_one(PickList).focus()
        show_answering_keys(self)

    def action_coach(self) -> None:
        """Explain what the question is about."""
        coach_on(self)

    def action_tick(self) -> None:
        """Tick the one under the cursor, or no longer; and on to the next."""
        listed = self.query_one(PickList)
        if row := listed.at:
            self._ticked ^= {row.id}
            listed.show(self._rows())
            listed.action_move(1)

    def action_keep(self) -> None:
        """Hand back what is ticked."""
        ticked = (each.place for row, each in self._offered.items() if row in self._ticked)
        self.dismiss((*self._others, *ticked))

    def action_leave_as_it_was(self) -> None:
        """Hand back nothing."""
        self.dismiss(None)

    def _rows(self) -> Iterator[ListRow]:
        for row, each in self._offered.items():
            ticked = row in self._ticked
            sign, style = (theme.SIGN_GOOD, theme.GOOD) if ticked else ("-", theme.PLAIN)
            says = f"{described(self._job, each.place)}: {each.says}"
            yield ListRow(row, (ListCell(sign, style, 1), ListCell(says)))
