"""The form set a job has, what was advised, and the reason where the two differ."""

from typing import Annotated

from pydantic import Field

from domain.forms.choice.answers import Answers
from domain.forms.form_set import FormSet
from domain.value import Line, Prose, Value, is_empty


class SeenElsewhere(Value):
    """Whose report it is, where another firm issued it: it is followed here, and never issued."""

    firm: Line
    number: Line


class ChosenPapers(Value):
    """The choice as it was made; an override keeps its reason, which is printed."""

    form_set: FormSet
    advised: FormSet | None = None
    """What the rules said; None when nobody asked them."""
    answers: Answers = Answers()
    because: Prose = ""
    """The person's own reason for differing."""
    visit: Line = ""
    """Numbers of all the minor works of the same visit, this one among them, where each circuit has one."""

    seen: Annotated[SeenElsewhere | None, Field(exclude_if=is_empty)] = None
    """Another firm's report, kept as seen elsewhere."""

    @property
    def is_override(self) -> bool:
        """The person chose otherwise than advised."""
        return self.advised is not None and self.advised != self.form_set
