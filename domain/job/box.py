"""The declaration of a box: one place that screens, gaps, the schema and the sheets all read."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from enum import Enum
from functools import cache
from typing import Any

from pydantic import BaseModel, GetJsonSchemaHandler
from pydantic_core import CoreSchema

from domain.dates import date_problem
from domain.forms.box_group import BoxGroup
from domain.forms.form_set import FormSet
from domain.job.reading import READING_MAX, Meaning, Reading


class BoxKind(Enum):
    """What may be typed into a box."""

    LINE = "a line of text"
    PROSE = "running text"
    CHOICE = "one of a list"
    NUMBER = "a number"
    READING = "a measured value"
    TICK = "a tick"
    DATE = "a date"


_BOUNDS = frozenset("<>≤≥")
_NEVER_NOUGHT = frozenset({"A", "mm²", "V", "kA", "mA", "Hz"})
"""What is rated in these, or made in them, is more than nothing."""
_TEXTS = {BoxKind.LINE, BoxKind.PROSE}
_WORDED = {*_TEXTS, BoxKind.CHOICE}
_LONE_MARKS = frozenset("lvn")
"""Letters that mean LIM, N/V or N/A where those can stand, and nothing where they cannot."""
_FIGURES = {BoxKind.NUMBER, BoxKind.READING, BoxKind.TICK}
_REPORT_MARKS = {Meaning.LIMITATION, Meaning.NOT_VERIFIED}
_TEXT_MARKS = {Meaning.NOT_APPLICABLE}
_MARKS = _TEXT_MARKS | _REPORT_MARKS


@dataclass(frozen=True, slots=True)
class Box:
    """One box of a form: what it is called, what it takes, and with which group of boxes it is asked for."""

    label: str
    kind: BoxKind = BoxKind.LINE
    short: str = ""
    """The heading where room is scarce; the label when empty."""
    unit: str = ""
    help: str = ""
    choices: tuple[str, ...] = ()
    open_choice: bool = False
    """The list is an offer; other text is accepted too."""
    several: bool = False
    """More than one of the list may stand here, with "and" between them."""
    group: BoxGroup | None = None
    """The group it is asked with. Which form sets take the group, their profiles say; without one nobody asks for the box."""
    must: bool = False
    """No form set that asks for its group can do without it."""
    when: Callable[[Any], bool] | None = field(default=None, compare=False)
    """Needed, and where it is required at all required, only where this holds of the section, board or circuit."""
    whole: bool = False
    """Only a whole number can stand."""
    measured_in: tuple[str, ...] = ()
    """A figure in this text needs one of these units behind it."""
    figures_most: int | None = None
    """Of figures with nothing beside them no more than so many can stand: a type is no number of a standard."""
    letters_known: str = ""
    """Of letters alone only these are marked on anything; any where empty."""
    not_applicable: bool = False
    """N/A is an answer here."""
    names: bool = False
    """It names somebody, a place or what was done: N/A, a dash or a text that says nothing leaves it empty."""
    by_letter: bool = False
    """Its whole text may be a single letter, such as the number of a way; elsewhere L, V or N alone stands for a mark."""
    spelt: Callable[[str], str] = field(default=str, compare=False)
    """How a text is usually written here, however it was typed."""
    quiet: bool = False
    """On paper only where something was typed."""
    width: int = 6
    """Characters of a column in a schedule."""

    @property
    def heading(self) -> str:
        """The short name, with its unit where it has one."""
        return self.short or self.label

    @property
    def is_measured(self) -> bool:
        """Measured values are never prefilled or copied down."""
        return self.kind is BoxKind.READING

    @property
    def on(self) -> frozenset[FormSet]:
        """Every form set that shows the box."""
        return frozenset(each for each in FormSet if self.is_asked(each))

    @property
    def required(self) -> frozenset[FormSet]:
        """Every form set that cannot do without the box where it is needed."""
        return frozenset(each for each in FormSet if self.is_needed(each))

    def is_asked(self, form_set: FormSet) -> bool:
        """This form set shows the box."""
        return self.group is not None and form_set.profile.takes(self.group)

    def is_needed(self, form_set: FormSet) -> bool:
        """This form set cannot do without the box, at least with some things beside it."""
        return self.must and self.group in form_set.profile.asks

    def is_required(self, form_set: FormSet, owner: BaseModel) -> bool:
        """This form set cannot do without the box, given what stands beside it."""
        return self.is_needed(form_set) and (self.when is None or self.when(owner))

    def marks(self, form_set: FormSet) -> tuple[str, ...]:
        """Of a tick, N/A, LIM and N/V those that can stand here, as they are typed."""
        if self.kind in _TEXTS:
            of_reports = ("LIM", "N/V") if form_set.profile.takes_limitations else ()
            return () if self.names else ("N/A", *of_reports)
        tick = ("Y",) if self.kind is BoxKind.TICK else ()
        return (*tick, *(mark for mark in ("N/A", "LIM", "N/V") if not self.problem(mark, form_set)))

    def problem(self, typed: str, form_set: FormSet) -> str:
        """What is wrong with a typed text and what to do about it; "" when it can stand."""
        text = typed.strip()
        if not text:
            return ""
        meaning = Reading.of(text).meaning
        if meaning is Meaning.NOT_APPLICABLE:
            return "" if self._takes_not_applicable else f"{self.label} does exist here; N/A is no answer"
        if meaning in _REPORT_MARKS and self.kind not in _TEXTS:
            if form_set.profile.takes_limitations:
                return ""
            return f"{Reading.of(text).shown} belongs on reports only; a certificate needs the value itself"
        if text.casefold() in _LONE_MARKS and self.kind in _WORDED and text not in self.choices and not self.by_letter:
            return f"{text!r} alone says nothing here; say it in words"
        return _PROBLEMS[self.kind](self, text)

    @property
    def _takes_not_applicable(self) -> bool:
        return self.not_applicable or (self.kind in _TEXTS and not self.names)

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        """The declaration as the published schema shows it."""
        made = handler(schema)
        made["title"] = self.label + (f" ({self.unit})" if self.unit else "")
        if self.help:
            made["description"] = self.help
        if self.choices:
            made["examples"] = list(self.choices)
        made["x-kind"] = self.kind.value
        made["x-forms"] = sorted(each.value for each in self.on)
        if self.must:
            made["x-required-on"] = sorted(each.value for each in self.required)
        return made


def _no_problem(box: Box, text: str) -> str:
    return ""


def _choice_problem(box: Box, text: str) -> str:
    answers = answers_in(text) if box.several else (text,)
    if box.open_choice:
        return _bare_figures(box, text)
    if all(answer in box.choices for answer in answers):
        return ""
    return f"{text!r} is {'none' if box.several else 'not one'} of {', '.join(box.choices)}"


def _bare_figures(box: Box, text: str) -> str:
    if box.letters_known and len(text) == 1 and text.isalpha() and text.upper() not in box.letters_known:
        return f"{text!r} is no type that devices are marked with; give it as marked, such as B, C or gG"
    if box.figures_most is None or not text.isdecimal() or len(text) <= box.figures_most:
        return ""
    if box.figures_most:
        return f"{text!r} is the number of a standard; give the type, as marked, such as B, C or gG"
    return f"{text!r} is a figure alone; say in words what it is"


def _line_problem(box: Box, text: str) -> str:
    if bare := _bare_figures(box, text):
        return bare
    if not box.measured_in or Reading.of(text).meaning in _REPORT_MARKS:
        return ""
    if not any(letter.isdigit() for letter in text):
        return f"{text!r} is no figure; type it with its unit, {' or '.join(box.measured_in)}"
    if Reading.of(text).value is None:
        return ""
    return f"{text!r} has no unit; type it too, as in {' or '.join(f'{text} {unit}' for unit in box.measured_in)}"


def _number_problem(box: Box, text: str) -> str:
    reading = Reading.of(text)
    if reading.value is not None and text[0] in _BOUNDS:
        return f"{text!r} is no number but a bound; type the number itself"
    if (
        box.unit in _NEVER_NOUGHT
        and reading.value is not None
        and (not _has_digit_above_nought(text) or reading.value < 0)
    ):
        return f"{text!r} {box.unit} cannot be; type the figure itself"
    if box.whole and reading.figure is not None and reading.figure % 1:
        return f"{text!r} is no whole number"
    if reading.meaning in {Meaning.VALUE, Meaning.UNDER}:
        return ""
    unit = f" in {box.unit}" if box.unit else ""
    return f"{text!r} is no number; type it{unit} as figures, such as 32 or 2.5"


def _has_digit_above_nought(text: str) -> bool:
    return any(letter in "123456789" for letter in text)


def _reading_problem(box: Box, text: str) -> str:
    meaning = Reading.of(text).meaning
    if meaning in {Meaning.VALUE, Meaning.OVER, Meaning.UNDER}:
        return ""
    if text.casefold() == "ol":
        return "OL shows the range was exceeded; type > and the end of the range, such as >999"
    if text == "-":
        return "a dash can mean several things; type the value, N/A, or leave it empty"
    return f"{text!r} is no reading; type a value such as 0.35, >999 when over range, or a mark"


def _tick_problem(box: Box, text: str) -> str:
    meaning = Reading.of(text).meaning
    if meaning in {Meaning.TICK, Meaning.CROSS}:
        return ""
    return f"{text!r} is no tick; type Y when confirmed or N when not"


def _date_problem(box: Box, text: str) -> str:
    return date_problem(text)


_PROBLEMS: Mapping[BoxKind, Callable[[Box, str], str]] = {
    BoxKind.LINE: _line_problem,
    BoxKind.PROSE: _no_problem,
    BoxKind.CHOICE: _choice_problem,
    BoxKind.NUMBER: _number_problem,
    BoxKind.READING: _reading_problem,
    BoxKind.TICK: _tick_problem,
    BoxKind.DATE: _date_problem,
}


def answers_in(text: str) -> tuple[str, ...]:
    """The answers of a box that takes several: with "and", a comma, + or & between them."""
    return tuple(_BETWEEN_ANSWERS.split(text.strip()))


_BETWEEN_ANSWERS = re.compile(r"\s+and\s+|\s*[,+&]\s*", re.IGNORECASE)


@cache
def boxes_of(owner: type[BaseModel]) -> Mapping[str, Box]:
    """The boxes a section, board or circuit declares, by field name, in the order they are asked."""
    return {
        name: box for name, declared in owner.model_fields.items() for box in declared.metadata if isinstance(box, Box)
    }


def typed_in(owner: BaseModel, name: str) -> str:
    """What was typed into a box."""
    held = getattr(owner, name)
    return held.typed if isinstance(held, Reading) else str(held)


def shown_in(owner: BaseModel, name: str) -> str:
    """What screens and sheets show of a box: as typed, and marks in their usual spelling.

    Running text stays as it is. In a line of one's own only N/A is a mark; LIM or a tick may be part of what it says.
    """
    box = boxes_of(type(owner))[name]
    text, kind = box.spelt(typed_in(owner, name)), box.kind
    if not text or len(text) > READING_MAX or kind is BoxKind.PROSE:
        return text
    reading = Reading.of(text)
    is_shown = kind in _FIGURES or reading.meaning in (_TEXT_MARKS if kind in _TEXTS else _MARKS)
    return reading.shown if is_shown else text
