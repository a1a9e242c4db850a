"""The inspection items in walking order, each with its outcome by one key."""

from collections.abc import Iterator, Mapping
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType

from domain.editing.commands import AddItem, MarkItems, RemoveItem, SetOutcome
from domain.gate.assessment import JobAssessment
from domain.gate.gaps import has_limitation_text
from domain.inspection.checklist import ChecklistItem
from domain.inspection.item_outcome import InspectionOutcome, ItemOutcome, lacks_names, marks_for
from domain.inspection.observation import BY_GRAVITY, Code, Observation
from domain.job.job import Job
from domain.place import Place
from tui import theme
from tui.job_page import JobPage
from tui.keys import bindings
from tui.screens.dialogs import ConfirmScreen, FormScreen, LineScreen
from tui.screens.edit_forms import observation_form, observed, raised, snag_form
from tui.screens.job_screen import JobScreen
from tui.screens.observing import write_observation
from tui.widgets.entry_lines import AskedLine
from tui.widgets.pick_list import ListCell, ListRow, PickList
from tui.widgets.text_page import Paragraph, TextPage

_MEANS: Mapping[InspectionOutcome, str] = {
    InspectionOutcome.PASS: "inspected, acceptable",
    InspectionOutcome.NOT_APPLICABLE: "not applicable here",
    InspectionOutcome.LIMITATION: "not inspected, by a limitation",
    InspectionOutcome.NOT_VERIFIED: "not verified",
}
_REASONED = {InspectionOutcome.LIMITATION, InspectionOutcome.NOT_VERIFIED}


class InspectionScreen(JobScreen):
    """One key an outcome; the cursor then moves on to the next item."""

    STEP = JobPage.INSPECTION
    EXPLAINS: ClassVar[str] = (
        "The items of the inspection in the order one walks them. One key marks the item under the cursor and moves"
        " on. Marking the rest of a section touches only items without a mark. On a report a coded item needs an"
        " observation, which is asked at once; which code it gets is your own judgement, never the tool's. A"
        " certificate takes only a pass or N/A: put right what is wrong, or raise a snag with S."
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(
        *("mark-pass", "mark-na", "mark-c1", "mark-c2", "mark-c3", "mark-fi", "mark-lim", "mark-nv"),
        *("rest-pass", "rest-na", "item-open", "item-add", "item-snag", "remark", "unmark"),
    )
    DEFAULT_CSS = "InspectionScreen > #about { height: 4; padding: 0 1; }"

    def compose_step(self) -> ComposeResult:
        yield PickList(classes="step", lines_a_row=2)
        yield TextPage(id="about")

    def show_job(self, job: Job, stands: JobAssessment) -> None:  # noqa: ARG002
        """List the items with their outcomes."""
        self.query_one(PickList).show(_rows(job))

    def on_mount(self) -> None:
        """Begin on the first item that is open."""
        super().on_mount()
        if self.place is None:
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
        if action == "raise_snag" and self.job:
            return self.job.profile.takes_snags
        return True

    @on(PickList.Moved)
    def show_item(self) -> None:
        """Say in full what the item under the cursor asks, and what was found."""
        item, job = self._item, self.job
        if item and job:
            self.query_one("#about", TextPage).show(_about(job, item))

    def action_mark(self, mark_name: str) -> None:
        """Mark the item under the cursor and move on; ask for what the mark needs beside it."""
        item, mark = self._item, InspectionOutcome[mark_name]
        if item is None or not self.may_type():
            return
        if mark in _REASONED:
            self._ask_reason(item, mark)
        elif mark.code and self.job and _observations(self.job, item.number):
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
        if item is None or job is None or not self.may_type():
            return
        marked = {outcome.item for outcome in job.inspection}
        still_open = [each for each in _items(job) if each.section == item.section and each.number not in marked]
        # What passes there passes by name, which is written item by item.
        left = [each for each in still_open if not (each.lists and mark is InspectionOutcome.PASS)]
        if not left:
            says = f"{still_open[0].number} passes by name; mark it" if still_open else "every item has its mark"
            self.say(f"{item.section}: {says}")
            return
        count = f"{len(left)} items" if len(left) > 1 else "one item"
        question = f"{item.section}: mark {count} without an outcome as {mark}, {_MEANS[mark]}?"
        about = f"{', '.join(each.number for each in left)}. Only what was looked at is marked."
        self.confirm(ConfirmScreen(question, about), lambda: self._mark_all(left, mark))

    def action_unmark(self) -> None:
        """Take the mark away; of an added item without one, the item."""
        item = self._item
        if item is None or not self.may_type():
            return
        if self._outcome(item):
            self.do(SetOutcome(item=item.number, mark=None))
        elif self.job and any(own.item == item.number for own in self.job.own_items):
            question = ConfirmScreen(f"Remove the added item {item.number}?", item.title)
            self.confirm(question, lambda: self.do(RemoveItem(item=item.number)))

    def action_add_item(self) -> None:
        """Ask for an item of these premises, and put the cursor on it."""
        if not self.may_type():
            return
        lines = (AskedLine("title", "Looked at", must=True), AskedLine("regulations", "Regulations"))
        about = "For premises the usual list does not fit. It is inspected, marked and printed like the others."
        self.ask(FormScreen("An item added for these premises", lines, about), self._add_item)

    def _add_item(self, typed: Mapping[str, str]) -> None:
        if self.do(AddItem(title=typed["title"], regulations=typed["regulations"])) and self.job:
            self.query_one(PickList).go_to(self.job.own_items[-1].item)

    def action_raise_snag(self) -> None:
        """Raise a snag about the item under the cursor."""
        item, desk = self._item, self.ohmfolio.desk
        if item is not None and self.may_type():
            about = Place(section="inspection", item=item.number)
            form = snag_form(self.ohmfolio.naming.name, where=f"Inspection item {item.number}", what=f"{item.title}: ")
            self.ask_named(form, lambda typed: raised(typed, desk.now().date(), about))

    def action_remark(self) -> None:
        """Write a remark on the item, or the reason of its mark."""
        item = self._item
        outcome = self._outcome(item) if item else None
        if not self.may_type():
            return
        if item is None or outcome is None:
            self.say("Mark the item first; the remark belongs to its mark")
        elif outcome.mark in _REASONED:
            self._ask_reason(item, outcome.mark)
        else:
            line = LineScreen(f"A remark on {item.number} {item.title}", outcome.note, must=False)
            self.ask(line, lambda note: self._set(item, outcome.mark, note))

    def action_open(self) -> None:
        """Write the observation of a coded item, or a remark on any other."""
        item = self._item
        outcome = self._outcome(item) if item else None
        if not (item and outcome and outcome.mark.code):
            self.action_remark()
        elif self.may_type():
            self._write_observation(item, outcome.mark.code)

    @property
    def _item(self) -> ChecklistItem | None:
        row = self.query_one(PickList).at
        return next((item for item in _items(self.job) if row and item.number == row.id), None) if self.job else None

    def _outcome(self, item: ChecklistItem) -> ItemOutcome | None:
        return _outcomes(self.job).get(item.number) if self.job else None

    def _first_open(self) -> str:
        marked = _outcomes(self.job) if self.job else {}
        items = _items(self.job) if self.job else ()
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

        self.ask(LineScreen(f"{item.number} {item.title}: why {_MEANS[mark]}?", note, about, must=must), take)

    def _write_observation(self, item: ChecklistItem, code: Code) -> None:
        """Write the observation of an item, or rewrite the one that decides its code; the item follows what is kept."""
        outcome, job = self._outcome(item), self.job
        if outcome is None or job is None:
            return
        written = _observations(job, item.number)
        before = min(written, key=lambda each: BY_GRAVITY.index(each.code), default=None)

        def take(typed: Mapping[str, str] | None) -> None:
            if typed is None and before is None:
                self.say(f"{item.number} is marked {outcome.mark}; its observation is still to be written (Enter)")
            elif typed is None:
                self.say(f"{item.number} stays {outcome.mark}, as its observation says")
            elif write_observation(self, observed(typed, before)):
                self.query_one(PickList).action_move(1)

        self.ohmfolio.push_screen(observation_form(before, code=code, item=item.number, finding=outcome.note), take)


def _items(job: Job) -> tuple[ChecklistItem, ...]:
    return job.items


def _outcomes(job: Job) -> dict[str, ItemOutcome]:
    return {outcome.item: outcome for outcome in job.inspection}


def _observations(job: Job, item: str) -> list[Observation]:
    return [each for each in job.observations if item in each.items]


def _rows(job: Job) -> Iterator[ListRow]:
    outcomes = _outcomes(job)
    section = ""
    for item in _items(job):
        if item.section != section:
            section = item.section
            inside = [each for each in _items(job) if each.section == section]
            left = sum(each.number not in outcomes for each in inside)
            says = f"{left} of {len(inside)} open" if left else "done"
            cells = (ListCell(section, theme.HEAD), ListCell(says, theme.ASKS if left else theme.GOOD, 14))
            yield ListRow(f"section {section}", cells, heading=True)
        outcome = outcomes.get(item.number)
        aside = _aside(job, item, outcome)
        yield ListRow(
            item.number,
            (
                ListCell(outcome.mark if outcome else theme.SIGN_GAP, _style(outcome), 3),
                ListCell(item.number, theme.PLAIN, 5),
                ListCell(item.title),
                ListCell(aside, theme.FAILS if aside.startswith("!") else theme.QUIET, 16),
            ),
        )


def _style(outcome: ItemOutcome | None) -> theme.Style:
    if outcome is None:
        return theme.QUIET
    if outcome.mark.code:
        return theme.FAILS if outcome.mark.code.is_pressing else theme.ASKS
    return theme.GOOD if outcome.mark is InspectionOutcome.PASS else theme.PLAIN


def _is_bare(job: Job, outcome: ItemOutcome | None) -> bool:
    """Coded, and no observation carries the code."""
    code = outcome.mark.code if outcome else None
    return bool(outcome and code and all(each.code is not code for each in _observations(job, outcome.item)))


def _aside(job: Job, item: ChecklistItem, outcome: ItemOutcome | None) -> str:
    if outcome is None:
        return ""
    if _is_bare(job, outcome):
        return "! not observed"
    if lacks_names(item, outcome):
        return "! none named"
    if outcome.mark.code:
        return "observed"
    return "remark" if outcome.note.strip() else ""


def _about(job: Job, item: ChecklistItem) -> Iterator[Paragraph]:
    outcome = _outcomes(job).get(item.number)
    regulations = f" (BS 7671, {item.regulations})" if item.regulations else ""
    yield Paragraph(f"{item.title}{regulations}", label=item.number)
    if outcome is None:
        yield Paragraph("No outcome yet", theme.QUIET)
        return
    yield Paragraph(outcome.mark.code.meaning if outcome.mark.code else _MEANS[outcome.mark], label=outcome.mark)
    if _is_bare(job, outcome):
        yield Paragraph("No observation says so yet; Enter writes it", theme.FAILS)
    elif lacks_names(item, outcome):
        yield Paragraph("Name each of them in a remark, which is printed; Enter writes it", theme.FAILS)
    elif written := "; ".join(each.finding for each in _observations(job, item.number)) or outcome.note:
        yield Paragraph(written)
