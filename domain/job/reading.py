"""A reading as it was typed, with its meaning beside it."""

import re
from decimal import Decimal
from enum import Enum
from functools import lru_cache
from typing import TYPE_CHECKING, Any, Generic, NamedTuple, Self, cast

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, core_schema
from typing_extensions import TypeVar

from domain.value import NOT_APPLICABLE, cleaned

READING_MAX = 24


class Meaning(Enum):
    """What a typed reading stands for."""

    EMPTY = "not taken"
    VALUE = "a value"
    OVER = "over the instrument's range"
    UNDER = "below the instrument's resolution"
    TICK = "confirmed"
    CROSS = "not confirmed"
    NOT_APPLICABLE = "N/A"
    LIMITATION = "LIM"
    NOT_VERIFIED = "N/V"
    UNREADABLE = "not readable"

    __hash__ = object.__hash__
    """Every check asks for meanings; the hash an enumeration brings is a slow one."""


_MARKS = {
    **dict.fromkeys(NOT_APPLICABLE, Meaning.NOT_APPLICABLE),
    "lim": Meaning.LIMITATION,
    "n/v": Meaning.NOT_VERIFIED,
    "nv": Meaning.NOT_VERIFIED,
    "✓": Meaning.TICK,
    "✔": Meaning.TICK,
    "√": Meaning.TICK,
    "tick": Meaning.TICK,
    "t": Meaning.TICK,
    "y": Meaning.TICK,
    "yes": Meaning.TICK,
    "ok": Meaning.TICK,
    "✗": Meaning.CROSS,
    "x": Meaning.CROSS,
    "n": Meaning.CROSS,
    "no": Meaning.CROSS,
}
_SHOWN = {
    Meaning.NOT_APPLICABLE: "N/A",
    Meaning.LIMITATION: "LIM",
    Meaning.NOT_VERIFIED: "N/V",
    Meaning.TICK: "✓",
    Meaning.CROSS: "✗",
}
_BARE_POINT = re.compile(r"^([<>≥≤]?\s*-?)([.,][0-9])")
_NUMBER = re.compile(r"([<>≥≤]?)\s*(-?(?:[0-9]{1,7}(?:[.,][0-9]{0,4})?|[.,][0-9]{1,4}))")


U = TypeVar("U", bound=Decimal, covariant=True, default=Decimal)
"""The unit of the box that a reading stands in; `Decimal` where a box has none, or none is known."""


class Reading(NamedTuple, Generic[U]):
    """What was typed, what it means, and its figure in the unit of the box it stands in."""

    typed: str
    meaning: Meaning
    value: U | None
    """The figure for VALUE, the bound for OVER and UNDER (the true figure lies beyond it), and None for everything else."""
    figure: U | None
    """The measured figure; None where the reading is no plain value.

    Kept beside the others since the checks ask for it thousands of times a key.
    """

    if not TYPE_CHECKING:

        @classmethod
        def __class_getitem__(cls, unit: object) -> type[Self]:
            """The class itself: the unit is for the type checker alone, and documents know no readings but these."""
            return cls

    @classmethod
    def of(cls, typed: str) -> Self:
        """The reading for a typed text; never raises, never alters what was typed but outer blanks."""
        text, meaning, value = _parsed(typed.strip())
        return cls(text, meaning, value, value if meaning is Meaning.VALUE else None)

    @property
    def shown(self) -> str:
        """The text for screens and paper: marks in their usual spelling, all else as typed.

        A figure below one has its nought before the point, as ISO 80000-1 (7.3, from memory) asks: a bare point is overlooked.
        """
        if mark := _SHOWN.get(self.meaning):
            return mark
        # Most figures begin with a digit, and every box on a screen asks.
        return self.typed if self.typed[:1].isdecimal() else _BARE_POINT.sub(r"\g<1>0\g<2>", self.typed)

    @property
    def is_given(self) -> bool:
        """Anything typed that can be read."""
        return self.meaning not in {Meaning.EMPTY, Meaning.UNREADABLE}

    @property
    def is_mark(self) -> bool:
        """N/A, LIM or N/V."""
        return self.meaning in {Meaning.NOT_APPLICABLE, Meaning.LIMITATION, Meaning.NOT_VERIFIED}

    @classmethod
    def __get_pydantic_core_schema__(cls, source: type[Any], handler: GetCoreSchemaHandler) -> CoreSchema:
        """A string in documents, a Reading in the program."""
        return core_schema.no_info_plain_validator_function(
            _validated,
            serialization=core_schema.plain_serializer_function_ser_schema(
                _typed_of, return_schema=core_schema.str_schema()
            ),
        )

    @classmethod
    def __get_pydantic_json_schema__(cls, schema: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        """Plain text of at most 24 characters."""
        return {
            "type": "string",
            "maxLength": READING_MAX,
            "examples": ["0.35", ">999", "<0.01", "✓", "N/A", "LIM", "N/V", ""],
        }


def _typed_of(reading: Reading) -> str:
    return reading.typed


def _validated(given: object) -> Reading:
    if isinstance(given, Reading):
        return cast("Reading", given)
    if not isinstance(given, str):
        raise ValueError('a reading is text as typed, such as "0.35", ">999" or "N/A"')
    if len(given) > READING_MAX:
        raise ValueError(f"a reading holds at most {READING_MAX} characters")
    if cleaned(given) != given:
        raise ValueError("holds control characters; type plain text")
    return Reading.of(given)


@lru_cache(maxsize=8192)
def _parsed(typed: str) -> tuple[str, Meaning, Any]:
    """The text, what it means, and its number, to be taken in the unit of its box."""
    if not typed:
        return typed, Meaning.EMPTY, None
    if mark := _MARKS.get(typed.casefold()):
        return typed, mark, None
    match = _NUMBER.fullmatch(typed)
    if not match:
        return typed, Meaning.UNREADABLE, None
    sign, digits = match.groups()
    value = Decimal(digits.replace(",", "."))
    if sign in {">", "≥"}:
        return typed, Meaning.OVER, value
    if sign in {"<", "≤"}:
        return typed, Meaning.UNDER, value
    if value == 0:
        exponent = value.as_tuple().exponent
        assert isinstance(exponent, int)
        return typed, Meaning.UNDER, Decimal(1).scaleb(exponent)
    return typed, Meaning.VALUE, value


NOT_TAKEN: Reading[Any] = Reading.of("")
