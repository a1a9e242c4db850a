"""Everything about a job that is no schedule: client, premises, work or report, supply, earthing, boards."""

from collections.abc import Mapping
from typing import ClassVar

from pydantic import BaseModel
from textual.app import ComposeResult
from textual.binding import BindingType

from domain.dates import written
from domain.editing.commands import Enter, Fill, PutForward, RemoveBoard
from domain.editing.content_hash import content_hash
from domain.job.job import SECTION_TITLES, Job, sections_for
from domain.job.place_in_words import text_at
from domain.log.half_typed import HalfTyped
from domain.log.job_log import JobLogError
from domain.log.last_time.history import history_of
from domain.log.last_time.known_records import known_records
from domain.place import Place
from domain.register.entries import Kept, title_of
from domain.register.filling import about, filled_from, filled_from_client, kind_at
from domain.usual.phrases import phrases_begun
from domain.value import is_blank
from domain.words import on_one_line
from tui.job_page import JobPage
from tui.keys import bindings, key_name
from tui.routes import ToRegisterPick
from tui.screens.beginning_board import begin_board
from tui.screens.box_work import BoxPart, BoxWork
from tui.screens.dialogs import ConfirmScreen
from tui.screens.job_session import JobSession
from tui.screens.job_step import JobStep, StepHost
from tui.screens.raising import raise_here
from tui.widgets.box_page import BoxPage
from tui.widgets.box_panel import BoxPanel, Line
from tui.widgets.box_view import BoxView, Notes, notes_of, owner_of, put_forward_in, views_of
from tui.widgets.open_entry import OpenEntry
from tui.widgets.page_layout import Part

_LETTERS_MIN = 2
"""From so many letters on the registers are looked into."""


class DetailsStep(JobStep):
    """One page of boxes: the sections that the form set asks for, then the header of every board."""

    PAGE = JobPage.DETAILS
    EXPLAINS: ClassVar[str] = (
        "Who ordered the work, where it is, what was done or reported on, the supply, earthing and bonding, the main "
        "switch, and the header of every board. Type into the box under the cursor; Enter keeps the text and goes on, "
        "Escape gives the old text back. A dot marks what is still to be filled in, a cross what cannot stand. Boxes in "
        "weak print may stay empty. The lines below say what a box means and what may be picked: type its beginning "
        "or its number, or step with Space. Where a register knows what you type, the lines below show it, "
        f"and {key_name('take-known')} "
        f"takes it with the boxes that belong to it; where the installation is at the client's own address, {key_name('take-known')} takes that. A sign = marks what "
        f"was put forward: {key_name('page-enter')} says yes to it, {key_name('take-known')} to all of its part. Everything kept is saved at once."
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings("take-known", "board-remove", "board-add", "raise-here")

    def __init__(self, session: JobSession, host: StepHost) -> None:
        super().__init__(session, host)
        part = BoxPart(self, lambda: self.entering, self.asides, kept=self._kept)
        self._boxes = BoxWork(session, host, part)

    def compose(self) -> ComposeResult:
        yield BoxPage(self._boxes).add_class("step")
        yield BoxPanel()

    @property
    def entering(self) -> BoxPage:
        return self.query_one(BoxPage)

    def show_job(self) -> None:
        job, assessment = self.session.job, self.session.assessment
        if job and assessment:
            notes = notes_of(assessment)
            self.entering.show([*_section_parts(job, notes), *_board_parts(job, notes)])

    def go_to(self, place: Place) -> None:
        self.entering.go_to(place)

    def where(self) -> Place | None:
        return self._boxes.where()

    def commit_open_entry(self) -> bool:
        return self._boxes.commit()

    def reopen(self, left: HalfTyped) -> None:
        self._boxes.take_up(left)

    @property
    def typing(self) -> Place | None:
        return self._boxes.typing

    @property
    def told_here(self) -> tuple[Line, ...]:
        return self._boxes.told_here

    def begin(self, *, sent: bool) -> None:  # noqa: ARG002
        self._say_if_known()

    def _kept(self, place: Place) -> None:
        if place.section == "premises" and place.box in {"address", "postcode"}:
            self._say_if_known(has_come=True)

    def action_raise_here(self) -> None:
        """Raise a snag or an observation from the box under the cursor."""
        raise_here(self)

    def action_add_board(self) -> None:
        """List the boards to begin one from: the one under the cursor, else the first, where it has no circuit yet."""
        job, place = self.job, self.where()
        if job is not None:
            here = (job.board(place.board) if place else None) or next(iter(job.boards), None)
            begin_board(self.session, self.host, here, lambda _: None)

    def asides(self, view: BoxView | None, entry: OpenEntry | None) -> tuple[str, ...]:
        """What the register or the client's own address would fill in."""
        if own := self._of_client(view, entry):
            return (f"{key_name('take-known')} takes the client's: {', '.join(map(on_one_line, own.values()))}",)
        if phrases := self._phrases(view, entry):
            return (f"{key_name('take-known')} takes: {'; then '.join(phrases[:2])}",)
        first, *others = self._known(view, entry) or (None,)
        more = f" (and {len(others)} more)" if others else ""
        return (f"{key_name('take-known')} takes{more}: {about(first.entry)}",) if first else ()

    def action_take_known(self) -> None:
        """Take what the register knows of the letters typed; with none typed, the client's, or show the register."""
        view = self.entering.current
        kind = kind_at(view.place) if view else None
        may_say_yes = self.entering.entry is None and view and (view.is_put_forward or kind is None)
        own = self._of_client(view, self.entering.entry)
        may_say_yes = may_say_yes and view and (view.is_put_forward or not own)
        if view and may_say_yes and (taken := self._boxes.say_yes_to(lambda place: place.whose == view.place.whose)):
            self.entering.go_past(taken)
        elif own:
            if self.host.may_type():
                self._take(own, f"Taken from the client; {key_name('undo')} takes it back")
        elif view and (phrases := self._phrases(view, self.entering.entry)):
            if self.host.may_type():
                self._take(
                    dict.fromkeys((view.place,), phrases[0]),
                    f"Taken as often written; {key_name('undo')} takes it back",
                )
        elif view is None or kind is None:
            self.say("No register goes with this box")
        elif self.host.may_type():
            if known := self._known(view, self.entering.entry):
                self._fill(view.place, known[0])
            else:
                self.host.ohmfolio.go(ToRegisterPick(kind, lambda picked: self._fill(view.place, picked)))

    def _say_if_known(self, *, has_come: bool = False) -> None:
        """An address that the log knows has a last time; where it `has_come` just now, earlier papers are put forward."""
        try:
            history = (
                history_of(self.host.ohmfolio.services.log, self.job) if self.job and not self.job.issued else None
            )
        except JobLogError:
            return
        if self.job and history and history.visits:
            before = history.visits[0]
            if has_come and (known := known_records(self.job, history)) and self._are_empty(known):
                self.do(known)
            when = f" of {written(before.on)}" if before.on else ""
            self.say(f"{before.number}{when} was at this address; {key_name('last-time')} lays it beside this job")

    def _are_empty(self, known: PutForward) -> bool:
        """Something is known of a box that is empty."""
        return self.job is not None and any(is_blank(text_at(self.job, each.place)) for each in known.entries)

    def action_remove_board(self) -> None:
        """Remove the board under the cursor, after a question that names it."""
        place = self.where()
        board = self.job.board(place.board) if self.job and place and self.host.commit_open_entry() else None
        if board is None:
            self.say("Put the cursor on a board to remove it")
            return
        count = len(board.circuits)
        held = f", its {count} circuit{'' if count == 1 else 's'} and every reading on them" if count else ""
        command = RemoveBoard(board=board.id, seen=content_hash(board))
        self.host.confirm(ConfirmScreen(f"Remove the board {board.name}{held}?"), lambda: self.do(command))

    def _known(self, view: BoxView | None, entry: OpenEntry | None) -> tuple[Kept, ...]:
        kind = kind_at(view.place) if view else None
        if kind is None or entry is None or not entry.is_changed or len(entry.text.strip()) < _LETTERS_MIN:
            return ()
        try:
            return self.host.ohmfolio.services.log.registered(kind, entry.text, limit=10)
        except JobLogError:
            return ()

    def _phrases(self, view: BoxView | None, entry: OpenEntry | None) -> tuple[str, ...]:
        """What is often written into the box, by the letters typed."""
        return phrases_begun(view.place, entry.editor.text) if view and entry and entry.is_changed else ()

    def _of_client(self, view: BoxView | None, entry: OpenEntry | None) -> Mapping[Place, str]:
        """What the client's own address fills here, as long as nothing is typed."""
        if view is None or self.job is None or (entry is not None and entry.text.strip()):
            return {}
        return filled_from_client(self.job, view.place)

    def _fill(self, place: Place, known: Kept) -> None:
        self._take(filled_from(known.entry, place), f"Taken from the register: {title_of(known.entry)}")

    def _take(self, texts: Mapping[Place, str], says: str) -> bool:
        self.entering.action_give_back()
        entries = tuple(Enter(place=at, text=text) for at, text in texts.items())
        taken = bool(entries) and self.do(Fill(entries=entries))
        if taken:
            self.entering.go_past(texts)
            self.say(says)
            if any(at.section == "premises" for at in texts):
                self._say_if_known(has_come=True)
        return taken


def _section_parts(job: Job, notes: Notes) -> list[Part]:
    return [
        _part(SECTION_TITLES[name], getattr(job, name), Place(section=name), job, notes)
        for name in sections_for(job.form_set)
    ]


def _board_parts(job: Job, notes: Notes) -> list[Part]:
    return [
        _part(f"Board {board.name}", board, Place(section="boards", board=board.id), job, notes) for board in job.boards
    ]


def _part(title: str, owner: BaseModel, place: Place, job: Job, notes: Notes) -> Part:
    waiting = put_forward_in(job).get(owner_of(place), frozenset())
    return Part(title, views_of(owner, place, title, job.form_set, notes.get(owner_of(place), {}), waiting=waiting))
