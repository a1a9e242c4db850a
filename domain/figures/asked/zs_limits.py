"""The highest Zs of a protective device: tabulated, and as a cold reading may be."""

from dataclasses import dataclass
from decimal import Decimal

from domain.edition import Edition
from domain.figures.asked.answer import FigureAnswer, NotAskableError, not_known, tabulated, worked_out
from domain.figures.asked.figure import Figure
from domain.figures.asked.given import Given
from domain.figures.asked.key import device, either, number, one_of_numbers, words
from domain.figures.formulas.loop import highest_cold_reading
from domain.figures.formulas.rounding import down, written
from domain.figures.formulas.working import Working
from domain.figures.limits.device import breaker_type_in, has_type, kind_of, types_of
from domain.figures.limits.earth_fault import device_limits, ratings_known
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import named_figure, table
from domain.figures.units import AMPERE, OHM, Ohms
from domain.source import Source

_STANDARDS = (
    *("BS EN 60898", "BS EN 61009", "BS 88-2", "BS 88-3", "BS 3036", "BS 1361", "BS 1362"),
    *("BS 3871", "BS 88-2.2", "BS 88-6"),
)
_SHORT, _LONG = Decimal("0.4"), Decimal(5)
_CLASSES = {
    "BS 88-2": ("gG", "E", "G"),
    "BS 88-3": ("gG", "C"),
    "BS 88-2.2": ("gG",),
    "BS 88-6": ("gG",),
    "BS 1361": ("1", "2", "I", "II"),
}
"""What is marked on fuses and does not change their figure."""
_WITHDRAWN = {
    "BS 1361": "withdrawn in 2010; the figures of BS 88-3 are higher at some ratings and do not stand in",
    "BS 88-2.2": "withdrawn in 2010; the figures of BS 88-2 are higher at some ratings and do not stand in",
    "BS 88-6": "withdrawn in 2010; the figures of BS 88-2 are higher at some ratings and do not stand in",
    "BS 3871": "withdrawn in 1994; its types are not those of BS EN 60898",
}
_DEVICE = device("device", "the standard of the device", _STANDARDS)
_TYPE = words("type", "the type of a circuit-breaker or RCBO", "B, C or D; 1, 2, 3 or 4 of a BS 3871 device")
_RATING = number("rating", "rated current In", AMPERE)
_TIME = one_of_numbers(
    "time", "disconnection time", "s", (_SHORT, _LONG), remark="; may be left out where both have one figure"
)
_ZS = number("zs", "the loop, instead of rating=, to have the largest rating whose limit it keeps", OHM)
_KEYS = (_DEVICE, _TYPE, _RATING, _ZS, _TIME)


@dataclass(frozen=True, slots=True)
class _FoundLimit:
    """The row of a device: its limit, or why there is none."""

    says: str
    limit: Limit[Ohms] | None
    source: Source
    notes: tuple[str, ...]


def _zs_max(given: Given) -> FigureAnswer:
    if given.one_of(_RATING, _ZS) is _ZS:
        return _largest_rating(given, Decimal(1))
    found = _found(given)
    if found.limit is None:
        return not_known("Ω", found.says, found.source, notes=found.notes)
    return tabulated(found.limit, f"{found.says}{_sum(given)}", notes=found.notes)


def _sum(given: Given) -> str:
    """The sum a breaker's figure follows from; fuses have none."""
    standard = given.need(_DEVICE)
    if not has_type(standard):
        return ""
    column = "within_5_s" if given.maybe(_TIME) == _LONG else "within_0_4_s"
    multiple = table("breaker_multiples", given.edition).limit(column, _letter(given))
    assert multiple
    u0, cmin = (named_figure("loop", name, given.edition) for name in ("U0", "Cmin"))
    current = multiple.value * given.need(_RATING)
    return f", {written(multiple.value)} × In = {written(current)} A, {u0.shown} × {cmin.shown} / {written(current)} A"


def _largest_rating(given: Given, factor: Decimal) -> FigureAnswer:
    """The table turned: the largest rating whose limit, times a factor and rounded down, a loop keeps."""
    standard, letter, zs = given.need(_DEVICE), _letter(given), given.need(_ZS)
    ratings = ratings_known(standard, letter, given.edition)
    fitting: list[tuple[Decimal, Limit]] = []
    for rating in ratings:
        limits = device_limits(standard, letter, rating, given.edition)
        if limits is None:
            continue
        if given.maybe(_TIME) is None and limits.short_time != limits.long_time:
            raise NotAskableError(f"{standard} has a figure for each time; say time={_SHORT} or time={_LONG}")
        limit = limits.short_time if given.maybe(_TIME) == _SHORT else limits.long_time
        if limit and down(limit.value * factor, 2) >= zs:
            fitting.append((rating, limit))
    named = " ".join(part for part in (standard, f"type {letter}" if letter else "", kind_of(standard)) if part)
    if not fitting:
        says = f"{written(zs)} Ω on a {named}"
        return not_known(
            "A",
            says,
            _source_of(standard, letter, ratings, given.edition),
            because="no rating of the table has so high a limit",
        )
    rating, limit = max(fitting, key=lambda pair: pair[0])
    kept = f"{written(zs)} Ω keeps {down(limit.value * factor, 2)} Ω, the limit of a {named} of {written(rating)} A"
    return worked_out(Working(value=rating, unit="A", sum=kept, source=limit.source), notes=_notes(standard))


def _zs_measured_max(given: Given) -> FigureAnswer:
    factor = named_figure("loop", "cold reading factor", given.edition)
    if given.one_of(_RATING, _ZS) is _ZS:
        return _largest_rating(given, factor.value)
    found = _found(given)
    if found.limit is None:
        return not_known("Ω", found.says, found.source, notes=found.notes)
    answer = worked_out(highest_cold_reading(found.limit, factor), factor.source, notes=found.notes)
    return answer.model_copy(update={"working": f"{found.says}: {answer.working}"})


def _found(given: Given) -> _FoundLimit:
    standard, letter = given.need(_DEVICE), _letter(given)
    rating, time = given.need(_RATING), given.maybe(_TIME)
    ratings = ratings_known(standard, letter, given.edition)
    parts = (standard, f"type {letter}" if letter else "", f"{written(rating)} A", kind_of(standard))
    named = " ".join(part for part in parts if part)
    limits = device_limits(standard, letter, rating, given.edition)
    if limits is None:
        known = either(tuple(written(each) for each in ratings))
        source = _source_of(standard, letter, ratings, given.edition)
        return _FoundLimit(f"The table has no {named}; it holds {known} A", None, source, ())
    if time is None and limits.short_time != limits.long_time:
        raise NotAskableError(f"{named} has a figure for each time; say time={_SHORT} or time={_LONG}")
    limit = limits.short_time if time == _SHORT else limits.long_time
    within = f"{named}, within {time} s" if time is not None else f"{named}, within {_SHORT} s and {_LONG} s"
    if limit is None:
        says = f"The table has no figure for a {within}"
        return _FoundLimit(says, None, _source_of(standard, letter, ratings, given.edition), ())
    return _FoundLimit(within, limit, limit.source, _notes(standard))


def _letter(given: Given) -> str:
    """The type of a breaker; of a fuse nothing, though what is marked on it may be typed."""
    standard, types = given.need(_DEVICE), types_of(given.need(_DEVICE))
    if types:
        letter = breaker_type_in(given.need(_TYPE))
        if letter not in types:
            raise NotAskableError(f"type is {either(types)} of a {standard} device, not {given.need(_TYPE)!r}")
        return letter
    marks = _CLASSES.get(standard, ())
    if not given.has(_TYPE) or given.need(_TYPE).casefold().removeprefix("type").strip() in map(str.casefold, marks):
        return ""
    may_be = f"it may be marked {either(marks)}" if marks else "leave it out"
    given.refuse(f"only a circuit-breaker or RCBO has a type, a {standard} fuse has none; {may_be}", _TYPE)
    return ""


def _notes(standard: str) -> tuple[str, ...]:
    if standard == "BS EN 61009":
        return ("where its residual current element gives fault protection, ask ra-max instead",)
    if standard in _WITHDRAWN:
        return (_WITHDRAWN[standard],)
    return ()


def _source_of(standard: str, letter: str, ratings: tuple[Decimal, ...], edition: Edition) -> Source:
    limits = device_limits(standard, letter, ratings[0], edition)
    assert limits
    assert limits.long_time
    return limits.long_time.source


_EXAMPLES = (
    ("device=BS EN 60898", "type=B", "rating=32", "time=0.4"),
    ("device=BS EN 60898", "type=D", "rating=20", "time=5"),
    ("device=BS 88-3", "rating=100", "time=5"),
)
_TURNED = (("device=BS EN 60898", "type=B", "zs=0.9"),)
ZS_MAX = Figure(
    "zs-max",
    "highest tabulated Zs of a device, or the largest device for a Zs",
    "Ω",
    _KEYS,
    _EXAMPLES,
    _zs_max,
    _TURNED,
)
ZS_MEASURED_MAX = Figure(
    "zs-measured-max",
    "highest Zs a cold reading may be: the tabulated figure times a factor, rounded down",
    "Ω",
    _KEYS,
    _EXAMPLES,
    _zs_measured_max,
    _TURNED,
)
