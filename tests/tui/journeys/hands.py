"""What a person's hands do on the steps of a job: keys only, in the order the boxes stand."""

from pydantic import BaseModel

from domain.forms.form_set import FormSet
from domain.inspection.item_outcome import InspectionOutcome
from domain.job.box import boxes_of, typed_in
from domain.job.circuit import DETAIL_BOXES, RESULT_BOXES
from domain.job.job import Job, sections_for
from tests.tui.terminal import Terminal

MARK_KEYS = {InspectionOutcome.PASS: "y", InspectionOutcome.NOT_APPLICABLE: "n"}


def one_line(text: str) -> str:
    """A text as it is typed into one box: no new lines."""
    return ", ".join(text.splitlines())


def type_boxes(terminal: Terminal, owner: BaseModel, names: list[str]) -> None:
    """Type what `owner` holds into these boxes one after the other, from the first on; Tab goes on to what is needed."""
    for name in needed_of(owner, names):
        terminal.send(one_line(typed_in(owner, name)) + "\t")


def asked(owner: type[BaseModel], form_set: FormSet, among: tuple[str, ...] = ()) -> list[str]:
    """The boxes a form set shows, in order."""
    return [name for name, box in boxes_of(owner).items() if box.is_asked(form_set) and (not among or name in among)]


def needed_of(owner: BaseModel, names: list[str]) -> list[str]:
    """Those of the boxes that are needed beside what else `owner` holds."""
    boxes = boxes_of(type(owner))
    return [name for name in names if (when := boxes[name].when) is None or when(owner)]


def type_details(terminal: Terminal, job: Job) -> None:
    """Fill the details step as it stands in `job`: every section, then the first board's header."""
    for section in sections_for(job.form_set):
        owner = getattr(job, section)
        type_boxes(terminal, owner, asked(type(owner), job.form_set))
    board = job.boards[0]
    type_boxes(terminal, board, asked(type(board), job.form_set))


def type_circuits(terminal: Terminal, job: Job, among: tuple[str, ...]) -> None:
    """Fill one of the two schedules, row by row. Tab passes over what a circuit does not need."""
    for row, circuit in enumerate(job.boards[0].circuits):
        if row and among is DETAIL_BOXES:
            terminal.press("ctrl+n", "home")
        elif row:
            terminal.press("down", "home")
        names = asked(type(circuit), job.form_set, among)
        needed = needed_of(circuit, names)
        if needed[0] != names[0]:
            terminal.press("tab")
        for name in needed:
            terminal.send(one_line(typed_in(circuit, name)) + ("\t" if name != needed[-1] else "\r"))


def mark_items(terminal: Terminal, job: Job) -> None:
    """Give every inspection item its outcome, one key each."""
    outcomes = {outcome.item: outcome.mark for outcome in job.inspection}
    for item in job.items:
        terminal.send(MARK_KEYS[outcomes[item.number]])


DETAILS, RESULTS = DETAIL_BOXES, RESULT_BOXES
