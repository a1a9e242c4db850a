"""A box as a person meets it: its declaration, what was typed, and what is said of it."""

from collections.abc import Container, Iterable, Mapping
from dataclasses import dataclass
from functools import cache

from pydantic import BaseModel

from domain.dates import date_in, written
from domain.forms.form_set import FormSet
from domain.gate.assessment import JobAssessment
from domain.gate.box_conflicts import box_conflicts
from domain.job.box import Box, BoxKind, boxes_of, shown_in, typed_in
from domain.job.finding import Finding, Gap, Severity
from domain.job.job import Job
from domain.place import Place
from domain.value import says_nothing
from tui import theme
from tui.keys import key_name

Owner = tuple[str, str, str]
"""Section (of a page), board and circuit."""
Said = Mapping[str, tuple[Finding | Gap, ...]]
"""What checks and gaps say of the boxes of one section, board or circuit."""
Notes = Mapping[Owner, Said]


@dataclass(frozen=True, slots=True)
class BoxView:
    """One box of a page or schedule, ready to be shown."""

    place: Place
    box: Box
    whose: str
    """The section, board or circuit it belongs to, in words."""
    typed: str
    shown: str
    offers: tuple[str, ...] = ()
    """What may be picked here."""
    marks: tuple[str, ...] = ()
    """Of a tick, N/A, LIM and N/V those that can stand here."""
    sign: str = ""
    says: tuple[str, ...] = ()
    """What is wrong or found, the worst first."""
    needed: bool = True
    """This circuit or section calls for the box."""
    optional: bool = False
    is_wrong: bool = False
    """What was typed cannot stand."""
    is_put_forward: bool = False
    """What stands here waits for somebody to say yes."""

    @property
    def label(self) -> str:
        """The full label with its unit."""
        return f"{self.box.label} ({self.box.unit})" if self.box.unit else self.box.label

    @property
    def is_stop(self) -> bool:
        """Going on stops here: the box is needed, or holds what somebody should see."""
        return self.needed or self.is_put_forward or not says_nothing(self.typed)

    @property
    def at_rest(self) -> str:
        """What stands in the box while nobody types."""
        if self.shown and self.box.kind is BoxKind.DATE and (day := date_in(self.shown)):
            return written(day)
        if self.box.kind is BoxKind.TICK and self.shown == self.sign == theme.SIGN_FAILS:
            # The sign beside it is a cross too, and two crosses say nothing.
            return "no"
        return self.shown if self.shown or self.needed or self.optional else "N/A"


def notes_of(assessment: JobAssessment) -> Notes:
    """Every finding and gap under the place it is about. What is put forward shows that itself."""
    notes: dict[Owner, dict[str, tuple[Finding | Gap, ...]]] = {}
    for note in (*assessment.findings, *(gap for gap in assessment.gaps if gap.kind != "never-confirmed")):
        for place in note.places if isinstance(note, Finding) else (note.place,):
            said = notes.setdefault(owner_of(place), {})
            said[place.box] = (*said.get(place.box, ()), note)
    return notes


def owner_of(place: Place) -> Owner:
    """Whose box a place is; a board's id says enough without its section."""
    return place.whose


def put_forward_in(job: Job) -> Mapping[Owner, frozenset[str]]:
    """The boxes that wait for a yes, by whose they are."""
    waiting: dict[Owner, frozenset[str]] = {}
    for place in job.unconfirmed:
        waiting[place.whose] = waiting.get(place.whose, frozenset()) | {place.box}
    return waiting


def is_same(one: Place, other: Place) -> bool:
    """Both are the same box."""
    return one.box == other.box and owner_of(one) == owner_of(other)


def views_of(
    owner: BaseModel,
    place: Place,
    whose: str,
    form_set: FormSet,
    said: Said,
    names: Iterable[str] | None = None,
    *,
    waiting: Container[str] = (),
) -> tuple[BoxView, ...]:
    """The boxes a form set asks of a section, board or circuit; `waiting` are those that wait for a yes."""
    boxes, misplaced = boxes_of(type(owner)), box_conflicts(owner)
    return tuple(
        _view(
            owner,
            place.model_copy(update={"box": name}),
            whose,
            form_set,
            said.get(name, ()),
            is_misplaced=name in misplaced,
            is_put_forward=name in waiting,
        )
        for name in (boxes if names is None else names)
        if boxes[name].is_asked(form_set)
    )


def _view(
    owner: BaseModel,
    place: Place,
    whose: str,
    form_set: FormSet,
    notes: tuple[Finding | Gap, ...],
    *,
    is_misplaced: bool,
    is_put_forward: bool,
) -> BoxView:
    box = boxes_of(type(owner))[place.box]
    said = sorted(notes, key=_weight)
    typed = typed_in(owner, place.box)
    required = box.is_needed(form_set)
    is_wrong = is_misplaced or bool(box.problem(typed, form_set))
    return BoxView(
        place=place,
        box=box,
        whose=whose,
        typed=typed,
        shown=shown_in(owner, place.box),
        offers=_offers(box, form_set),
        marks=_marks(box, form_set),
        sign=_sign(said, is_wrong=is_wrong, is_put_forward=is_put_forward),
        says=(*(_sentence(note) for note in said), *((_WAITS,) if is_put_forward else ())),
        needed=box.when is None or box.when(owner),
        optional=not required,
        is_wrong=is_wrong,
        is_put_forward=is_put_forward,
    )


def _offers(box: Box, form_set: FormSet) -> tuple[str, ...]:
    if box.kind is BoxKind.TICK:
        tick, *marks = _marks(box, form_set)
        return (tick, "N", *marks)
    if box.choices and box.not_applicable and "N/A" not in box.choices:
        return (*box.choices, "N/A")
    return box.choices


@cache
def _marks(box: Box, form_set: FormSet) -> tuple[str, ...]:
    return box.marks(form_set)


_WAITS = f"put forward; {key_name('page-enter')} says yes, {key_name('take-known')} to all of this part"
_WEIGHTS = {Severity.FAILS: 0, Severity.ASK: 2, Severity.NOTE: 3}
_SIGNS = {Severity.FAILS: theme.SIGN_FAILS, Severity.ASK: theme.SIGN_ASKS, Severity.NOTE: ""}


def _weight(note: Finding | Gap) -> int:
    return _WEIGHTS[note.severity] if isinstance(note, Finding) else 1


def _sign(said: list[Finding | Gap], *, is_wrong: bool, is_put_forward: bool) -> str:
    if is_wrong:
        return theme.SIGN_FAILS
    if is_put_forward and not any(isinstance(note, Finding) and _SIGNS[note.severity] for note in said):
        return theme.SIGN_PUT_FORWARD
    worst = said[0] if said else None
    if worst is None:
        return ""
    return _SIGNS[worst.severity] if isinstance(worst, Finding) else theme.SIGN_GAP


def _sentence(note: Finding | Gap) -> str:
    if isinstance(note, Gap):
        return note.says
    figures = [
        f"{word} {figure}"
        for word, figure in (("measured", note.measured), ("limit", note.limit))
        if figure and figure not in note.says
    ]
    source = [note.source.cited] if note.source else []
    return f"{note.says} [{'; '.join(figures + source)}]" if figures or source else note.says
