"""The registers: what the office types once, to be offered by a few letters ever after."""

from collections.abc import Callable, Iterator
from datetime import date
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType

from domain.log.job_log import JobLogError
from domain.register.entries import Instrument, Kept, Person, RegisterEntry, RegisterKind, identity_of, title_of
from domain.register.filling import about
from tui import theme
from tui.keys import bindings, key_name
from tui.routes import ToRegisterPick
from tui.screens.dialogs import ConfirmScreen, LineScreen
from tui.screens.page import Page
from tui.screens.register_forms import (
    NAMES,
    Typed,
    Wrong,
    check_form,
    check_from,
    entry_form,
    entry_from,
    phrase_form,
    typed_of,
)
from tui.screens.register_text import row_of, told
from tui.widgets.pick_list import PickList
from tui.widgets.text_page import Paragraph, TextPage

_SHOWN_MAX = 200


class RegisterScreen(Page):
    """One register at a time, and under it the entry under the cursor in full."""

    EXPLAINS: ClassVar[str] = (
        "People and what they may sign, firms, clients, premises, and instruments with their calibration and"
        " cross-checks. What stands here is offered in the boxes of a job after a few letters. Issued papers teach"
        " it clients, premises, firms and instruments; people are entered by hand, for the office says what they may"
        " sign. Changing an entry changes no paper; older versions stay kept."
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(
        *(
            "register-next",
            "register-before",
            "register-take",
            "register-open",
            "register-change",
            "register-add",
            "register-words",
            "register-retire",
        ),
        *(
            "register-retired",
            "register-merge",
            "register-check",
            "register-phrase",
            "back",
            "palette",
            "leave",
            "help",
        ),
    )
    DEFAULT_CSS = """
    RegisterScreen > #head { height: 2; padding: 0 1; }
    RegisterScreen > PickList { height: 1fr; }
    RegisterScreen > #about { height: 7; padding: 0 1; border-top: solid ansi_default; }
    """

    def __init__(self, kind: RegisterKind = RegisterKind.PERSON, take: Callable[[Kept], None] | None = None) -> None:
        """`take` gets the entry that is picked, where one is to be taken into a job; the register then stays this one."""
        super().__init__()
        self.kind = kind
        self._take = take
        self._words = ""
        self._retired = False
        self._kept: tuple[Kept, ...] = ()

    def compose_page(self) -> ComposeResult:
        yield TextPage(id="head")
        yield PickList(empty=f"Nothing here yet. {key_name('register-add')} adds an entry.")
        yield TextPage(id="about")

    def on_mount(self) -> None:
        """List the first register."""
        self.query_one(PickList).focus()
        self._load()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:  # noqa: ARG002
        """Only an instrument is cross-checked; Enter takes an entry where one is wanted, and changes it elsewhere."""
        if action in {"take", "open", "turn"}:
            return (action == "take") is (self._take is not None)
        if action == "set_phrase":
            return self.kind is RegisterKind.PERSON
        return self.kind is RegisterKind.INSTRUMENT if action == "check" else True

    @on(PickList.Moved)
    def show_entry(self) -> None:
        """Tell the entry under the cursor in full."""
        self.query_one("#about", TextPage).show(told(kept, self._today) if (kept := self.at) else ())

    @property
    def at(self) -> Kept | None:
        """The entry under the cursor."""
        row = self.query_one(PickList).at
        return next((kept for kept in self._kept if row and kept.id == row.id), None)

    def action_turn(self, by: int) -> None:
        """Another register."""
        kinds = list(RegisterKind)
        self.kind, self._words = kinds[(kinds.index(self.kind) + by) % len(kinds)], ""
        self._load()
        self.show_keys()

    def action_words(self) -> None:
        """Show what holds some words only."""
        self.ask(LineScreen("Entries that hold", self._words, "Words or their beginnings.", must=False), self._narrow)

    def action_show_retired(self) -> None:
        """Show the retired ones, or the others."""
        self._retired = not self._retired
        self._load()

    def action_add(self) -> None:
        """Type a new entry."""
        self._ask_for(None, {})

    def action_change(self) -> None:
        """Type the entry under the cursor anew."""
        if kept := self.at:
            self._ask_for(kept, typed_of(kept.entry))

    def action_open(self) -> None:
        """Type the entry under the cursor anew."""
        self.action_change()

    def action_take(self) -> None:
        """Hand over the entry under the cursor."""
        if self._take and (kept := self.at):
            self.ohmfolio.pop_screen()
            self._take(kept)

    def action_retire(self) -> None:
        """Retire the entry, after a question; or put it back."""
        kept = self.at
        if kept is None:
            return
        if kept.retired:
            self._keep(kept.entry, kept, retired=False)
            return
        question = ConfirmScreen(f"Offer {title_of(kept.entry)} no more?", "It stays kept and can be put back.")
        self.confirm(question, lambda: self._keep(kept.entry, kept, retired=True))

    def action_merge(self) -> None:
        """Pick the entry that this one is the same as, and make the two one after a question."""
        goes = self.at
        if goes is None or goes.retired or self._take:
            self.say("An entry that is offered is merged into another")
            return
        self.ohmfolio.go(ToRegisterPick(self.kind, lambda stays: self._ask_to_merge(stays, goes)))

    def _ask_to_merge(self, stays: Kept, goes: Kept) -> None:
        if stays.id == goes.id:
            self.say("It is that entry itself; take the other one")
            return
        about_both = (
            f"Offered no more: {about(goes.entry)}. What the other lacks it gets from it. Papers stay as they are."
        )
        self.confirm(ConfirmScreen(f"Only {about(stays.entry)}?", about_both), lambda: self._merge(stays, goes))

    def _merge(self, stays: Kept, goes: Kept) -> None:
        services = self.ohmfolio.services
        try:
            now = services.log.merge_entries(stays.id, goes.id, who=services.who, at=services.now())
        except JobLogError as error:
            self.say(f"Not merged. {error}", bad=True)
            return
        self._load()
        self.query_one(PickList).go_to(now.id)
        self.show_entry()
        self.say(f"Merged; {key_name('register-retired')} shows the one that is offered no more")

    def action_check(self) -> None:
        """Note a cross-check of the instrument."""
        kept = self.at
        if kept is None or not isinstance(kept.entry, Instrument):
            return
        instrument = kept.entry

        def take(typed: Typed) -> None:
            check = check_from(typed)
            if check is None:
                self.say(f"Not kept: {typed['on']!r} is no date; {key_name('register-check')} begins again", bad=True)
                return
            self._keep(instrument.model_copy(update={"checks": (*instrument.checks, check)}), kept)

        self.ask(check_form(instrument, self.ohmfolio.naming.name, self._today), take)

    def action_set_phrase(self) -> None:
        """Set or change what nobody signs as this person without."""
        if (kept := self.at) and isinstance(kept.entry, Person):
            name = kept.entry.name
            form = phrase_form(name, is_set=self.ohmfolio.services.log.phrase_asked(name))
            self.ask(form, lambda typed: self._set_phrase(name, typed))

    def _set_phrase(self, name: str, typed: Typed) -> None:
        if typed["phrase"] != typed["again"]:
            self.say(
                f"The two were not the same; nothing was changed. {key_name('register-phrase')} begins again", bad=True
            )
            return
        services = self.ohmfolio.services
        try:
            why_not = services.log.set_phrase(
                name, typed["phrase"], before=typed.get("before", ""), who=services.who, at=services.now()
            )
        except JobLogError as error:
            why_not = f"Not kept. {error}"
        self.say(
            why_not or f"From now on nobody signs as {name} without it; it is kept only as a hash", bad=bool(why_not)
        )

    def action_back(self) -> None:
        """Back to where one came from."""
        self.ohmfolio.pop_screen()

    def _ask_for(self, kept: Kept | None, typed: Typed, wrong: Wrong | None = None) -> None:
        kind, before = self.kind, kept.entry if kept else None

        def take(typed: Typed) -> None:
            entry = entry_from(kind, typed, before)
            if isinstance(entry, Wrong):
                self._ask_for(kept, typed, entry)
            elif twin := self._twin(entry, kept):
                self.say(f"{title_of(twin.entry)} stands there already")
                self.query_one(PickList).go_to(twin.id)
            else:
                self._keep(entry, kept)

        self.ask(entry_form(kind, typed, wrong), take)

    def _twin(self, entry: RegisterEntry, kept: Kept | None) -> Kept | None:
        """Another entry that is the same thing in the world."""
        try:
            near = self.ohmfolio.services.log.registered(RegisterKind(entry.kind), title_of(entry))
        except JobLogError:
            return None
        others = (each for each in near if kept is None or each.id != kept.id)
        return next((each for each in others if identity_of(each.entry) == identity_of(entry)), None)

    def _keep(self, entry: RegisterEntry, kept: Kept | None, *, retired: bool = False) -> None:
        services = self.ohmfolio.services
        entry_id = kept.id if kept else ""
        try:
            now = services.log.register(entry, entry_id=entry_id, who=services.who, at=services.now(), retired=retired)
        except JobLogError as error:
            self.say(f"Not kept. {error}", bad=True)
            return
        self._load()
        self.query_one(PickList).go_to(now.id)
        self.show_entry()
        self.say(
            f"Retired; {key_name('register-retired')} shows the retired" if retired else f"Kept: {title_of(entry)}"
        )

    def _narrow(self, words: str) -> None:
        self._words = words
        self._load()

    def _load(self) -> None:
        try:
            self._kept = self.ohmfolio.services.log.registered(
                self.kind, self._words, retired=self._retired, limit=_SHOWN_MAX
            )
        except JobLogError as error:
            self.say(str(error), bad=True)
            return
        self.query_one("#head", TextPage).show(self._head())
        self.query_one(PickList).show([row_of(kept, self._today) for kept in self._kept])
        self.show_entry()
        self.say(f"The first {_SHOWN_MAX}; / finds the others" if len(self._kept) == _SHOWN_MAX else "")

    def _head(self) -> Iterator[Paragraph]:
        names = (f"[{name}]" if kind is self.kind else f" {name} " for kind, name in NAMES.items())
        yield Paragraph(" ".join(names), theme.HEAD)
        held = f"that hold: {self._words}" if self._words else ""
        yield Paragraph(" ".join(filter(None, ("retired" if self._retired else "", held))), theme.QUIET)

    @property
    def _today(self) -> date:
        return self.ohmfolio.services.now().date()
