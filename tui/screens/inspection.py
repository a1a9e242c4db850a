"""The inspection items in walking order, each with its outcome by one key."""

from collections.abc import Mapping, Sequence
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType

from domain.checks.whole_paper.new_in_edition import offered_items
from domain.checks.whole_paper.not_there import not_there
from domain.editing.commands import AddItem, MarkItems, RemoveItem, SetOutcome
from domain.gate.gaps import has_limitation_text
from domain.inspection.checklist import ChecklistItem
from domain.inspection.item_outcome import InspectionOutcome, ItemOutcome, marks_for
from domain.inspection.observation import BY_GRAVITY, Code
from domain.place import Place
from tui import theme
from tui.job_page import JobPage
from tui.keys import bindings, key_name
from tui.screens.dialogs import ConfirmScreen, FormScreen, LineScreen
from tui.screens.edit_forms import observation_form, observed, raised, snag_form
from tui.screens.inspection_text import MEANS, about_item, item_rows, observations_on, outcomes_in, where_looked_at
from tui.screens.job_step import JobStep
from tui.screens.observing import write_observation
from tui.screens.picturing import ask_picture, pictures_at, take_out, told
from tui.widgets.entry_lines import AskedLine
from tui.widgets.pick_list import PickList
from tui.widgets.text_page import Paragraph, TextPage

_REASONED = {InspectionOutcome.LIMITATION, InspectionOutcome.NOT_VERIFIED}


class InspectionStep(JobStep):
    """One key an outcome; the cursor then moves on to the next item."""

    PAGE = JobPage.INSPECTION
    EXPLAINS: ClassVar[str] = (
        "The items of the inspection in the order one walks them. One key marks the item under the cursor and moves"
        " on. Marking the rest of a section touches only items without a mark. On a report a coded item needs an"
        " observation, which is asked at once; which code it gets is your own judgement, never the tool's. A"
        " certificate takes only a pass or N/A: put right what is wrong, or raise a snag with"
        f" {key_name('item-snag')}."
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(
        *("mark-pass", "mark-na", "mark-c1", "mark-c2", "mark-c3", "mark-fi", "mark-lim", "mark-nv"),
        *(
            "rest-pass",
            "rest-na",
            "not-there",
            "item-open",
            "item-add",
            "items-offered",
            "item-snag",
            "remark",
            "unmark",
            "picture",
            "picture-out",
        ),
    )
    DEFAULT_CSS = "InspectionStep > #about { height: 4; padding: 0 1; }"

    def compose(self) -> ComposeResult:
        yield PickList(classes="step", lines_a_row=2)
        yield TextPage(id="about")

    def show_job(self) -> None:
        """List the items with their outcomes."""
        if self.job:
            self.query_one(PickList).show(item_rows(self.job))

    def begin(self, *, sent: bool) -> None:
        """Begin on the first item that is open."""
        if not sent:
            self.go_to(Place())

    def go_to(self, place: Place) -> None:
        """Put the cursor on an item, or on the first one that is open."""
        items = self.query_one(PickList)
        if not items.go_to(place.item) and (first := self._first_open()):
            items.go_to(first)

    def where(self) -> Place | None:
        """The item under the cursor."""
        item = self._item
        return Place(section="inspection", item=item.number) if item else None

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Codes and limitations belong on reports only."""
        if action == "mark" and self.job:
            return InspectionOutcome[str(parameters[0])] in marks_for(self.job.form_set)
        if action == "add_offered":
            return bool(self.job and offered_items(self.job))
        if action == "raise_snag" and self.job:
            return self.job.profile.takes_snags
        return True

    @on(PickList.Moved)
    def show_item(self) -> None:
        """Say in full what the item under the cursor asks, and what was found."""
        item, job = self._item, self.job
        if item and job:
            pictured = [Paragraph(told(each), theme.QUIET) for each in pictures_at(job, self._pictured)]
            self.query_one("#about", TextPage).show([*about_item(job, item), *pictured])

    def action_mark(self, mark_name: str) -> None:
        """Mark the item under the cursor and move on; ask for what the mark needs beside it."""
        item, mark = self._item, InspectionOutcome[mark_name]
        if item is None or not self.host.may_type():
            return
        if mark in _REASONED and self.job and mark in marks_for(self.job.form_set):
            self._ask_reason(item, mark)
        elif mark.code and self.job and observations_on(self.job, item.number):
            self._write_observation(item, mark.code)
        elif not self._set(item, mark):
            return
        elif mark.code:
            self._write_observation(item, mark.code)
        else:
            self.query_one(PickList).action_move(1)

    def action_rest(self, mark_name: str) -> None:
        """Mark what is still open in this section, after a question."""
        item, job, mark = self._item, self.job, InspectionOutcome[mark_name]
        if item is None or job is None or not self.host.may_type():
            return
        marked = {outcome.item for outcome in job.inspection}
        still_open = [each for each in job.items if each.section == item.section and each.number not in marked]
        # What passes there passes by name, which is written item by item.
        left = [each for each in still_open if not (each.lists and mark is InspectionOutcome.PASS)]
        if not left:
            says = f"{still_open[0].number} passes by name; mark it" if still_open else "every item has its mark"
            self.say(f"{item.section}: {says}")
            return
        count = f"{len(left)} items" if len(left) > 1 else "one item"
        question = f"{item.section}: mark {count} without an outcome as {mark}, {MEANS[mark]}?"
        about = f"{', '.join(each.number for each in left)}. Only what was looked at is marked."
        self.host.confirm(ConfirmScreen(question, about), lambda: self._mark_all(left, mark))

    def action_not_there(self) -> None:
        """Mark N/A, after a question, what the rest of the record says is not there."""
        if self.job is None or not self.host.may_type():
            return
        items = not_there(self.job)
        if not items:
            self.say("The rest of the record denies none of the items that are open")
            return
        question = f"Mark {len(items)} items N/A, as the record has nothing of the kind?"
        about = ". ".join(f"{each.number} {each.title}" for each in items)
        self.host.confirm(ConfirmScreen(question, about), lambda: self._mark_not_there(items))

    def _mark_not_there(self, items: Sequence[ChecklistItem]) -> None:
        numbers = tuple(item.number for item in items)
        if self.do(MarkItems(items=numbers, mark=InspectionOutcome.NOT_APPLICABLE)):
            self.go_to(Place())

    def action_unmark(self) -> None:
        """Take the mark away; of an added item without one, the item."""
        item = self._item
        if item is None or not self.host.may_type():
            return
        if self._outcome(item):
            self.do(SetOutcome(item=item.number, mark=None))
        elif self.job and any(own.item == item.number for own in self.job.own_items):
            question = ConfirmScreen(f"Remove the added item {item.number}?", item.title)
            self.host.confirm(question, lambda: self.do(RemoveItem(item=item.number)))

    def action_add_item(self) -> None:
        """Ask for an item of these premises, and put the cursor on it."""
        if not self.host.may_type():
            return
        lines = (AskedLine("title", "Looked at", must=True), AskedLine("regulations", "Regulations"))
        about = "For premises the usual list does not fit. It is inspected, marked and printed like the others."
        self.host.ask(FormScreen("An item added for these premises", lines, about), self._add_item)

    def _add_item(self, typed: Mapping[str, str]) -> None:
        if self.do(AddItem(title=typed["title"], regulations=typed["regulations"])) and self.job:
            self.query_one(PickList).go_to(self.job.own_items[-1].item)

    def action_picture(self) -> None:
        """Take a picture in."""
        ask_picture(self, self._pictured)

    def action_picture_out(self) -> None:
        """Take its last picture out."""
        take_out(self, self._pictured)

    def action_add_offered(self) -> None:
        """Add the rows offered for new subjects of the edition, after a question."""
        offered = offered_items(self.job) if self.job else ()
        if not offered or not self.host.may_type():
            return
        about = f"{'. '.join(item.title for item in offered)}. They are this program's own; work from the standard."
        self.host.confirm(ConfirmScreen(f"Add {len(offered)} rows to the inspection?", about), self._add_offered)

    def _add_offered(self) -> None:
        for item in offered_items(self.job) if self.job else ():
            if not self.do(AddItem(title=item.title, regulations=item.regulations)):
                return
        if self.job:
            self.host.show_keys()
            self.query_one(PickList).go_to(self.job.own_items[-1].item)

    def action_raise_snag(self) -> None:
        """Raise a snag about the item under the cursor."""
        item, services = self._item, self.host.ohmfolio.services
        if item is not None and self.host.may_type():
            about = Place(section="inspection", item=item.number)
            form = snag_form(
                self.host.ohmfolio.naming.name, where=f"Inspection item {item.number}", what=f"{item.title}: "
            )
            self.host.ask_named(form, lambda typed: raised(typed, services.now().date(), about))

    def action_remark(self) -> None:
        """Write a remark on the item, or the reason of its mark."""
        item = self._item
        outcome = self._outcome(item) if item else None
        if not self.host.may_type():
            return
        if item is None or outcome is None:
            self.say("Mark the item first; the remark belongs to its mark")
        elif outcome.mark in _REASONED:
            self._ask_reason(item, outcome.mark)
        else:
            line = LineScreen(f"A remark on {item.number} {item.title}", outcome.note, must=False)
            self.host.ask(line, lambda note: self._set(item, outcome.mark, note))

    def action_open(self) -> None:
        """Write the observation of a coded item, or a remark on any other."""
        item = self._item
        outcome = self._outcome(item) if item else None
        if not (item and outcome and outcome.mark.code):
            self.action_remark()
        elif self.host.may_type():
            self._write_observation(item, outcome.mark.code)

    @property
    def _pictured(self) -> Place | None:
        return self.where()

    @property
    def _item(self) -> ChecklistItem | None:
        row = self.query_one(PickList).at
        return next((item for item in self.job.items if row and item.number == row.id), None) if self.job else None

    def _outcome(self, item: ChecklistItem) -> ItemOutcome | None:
        return outcomes_in(self.job).get(item.number) if self.job else None

    def _first_open(self) -> str:
        marked = outcomes_in(self.job) if self.job else {}
        items = self.job.items if self.job else ()
        return next((item.number for item in items if item.number not in marked), "")

    def _set(self, item: ChecklistItem, mark: InspectionOutcome, note: str | None = None) -> bool:
        before = self._outcome(item)
        kept = before.note if before and before.mark is mark else ""
        return self.do(SetOutcome(item=item.number, mark=mark, note=kept if note is None else note))

    def _mark_all(self, items: list[ChecklistItem], mark: InspectionOutcome) -> None:
        if not self.do(MarkItems(items=tuple(item.number for item in items), mark=mark)):
            return
        self.query_one(PickList).go_to(items[-1].number)
        self.query_one(PickList).action_move(1)

    def _ask_reason(self, item: ChecklistItem, mark: InspectionOutcome) -> None:
        before = self._outcome(item)
        note = before.note if before and before.mark is mark else ""
        must = mark is InspectionOutcome.NOT_VERIFIED or self.job is None or not has_limitation_text(self.job)
        about = "" if must else "May stay empty where the report's own limitations give the reason."

        def take(reason: str) -> None:
            if self._set(item, mark, reason):
                self.query_one(PickList).action_move(1)

        self.host.ask(LineScreen(f"{item.number} {item.title}: why {MEANS[mark]}?", note, about, must=must), take)

    def _write_observation(self, item: ChecklistItem, code: Code) -> None:
        """Write the observation of an item, or rewrite the one that decides its code; the item follows what is kept."""
        outcome, job = self._outcome(item), self.job
        if outcome is None or job is None:
            return
        written = observations_on(job, item.number)
        before = min(written, key=lambda each: BY_GRAVITY.index(each.code), default=None)

        def take(typed: Mapping[str, str] | None) -> None:
            if typed is None and before is None:
                self.say(f"{item.number} is marked {outcome.mark}; its observation is still to be written (Enter)")
            elif typed is None:
                self.say(f"{item.number} stays {outcome.mark}, as its observation says")
            elif write_observation(self, observed(typed, before)):
                self.query_one(PickList).action_move(1)

        where = where_looked_at(job, item)
        form = observation_form(before, code=code, item=item.number, finding=outcome.note, where=where)
        self.host.ohmfolio.push_screen(form, take)
