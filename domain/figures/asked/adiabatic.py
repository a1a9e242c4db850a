"""The least size of a conductor that survives a fault."""

from collections.abc import Mapping
from decimal import Decimal

from domain.figures.asked.answer import FigureAnswer, NotAskableError, worked_out
from domain.figures.asked.figure import Figure
from domain.figures.asked.given import Given
from domain.figures.asked.key import choice, number, words
from domain.figures.formulas.adiabatic import highest_current, least_csa, longest_time, next_size
from domain.figures.formulas.rounding import written
from domain.figures.limits.conductors import sizes_as_made
from domain.figures.limits.k_factors import conductors_called, usual_among
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import named_figure, table
from domain.figures.limits.table import LimitRow
from domain.figures.units import (
    AMPERE,
    K_FACTOR,
    OHM,
    SECOND,
    SQUARE_MILLIMETRE,
    VOLT,
    AdiabaticFactor,
    Amperes,
    Seconds,
    SquareMillimetres,
    Volts,
)
from domain.source import Source

_CURRENT = number("current", "fault current", AMPERE)
_U0 = number(
    "u0", "nominal voltage to earth, with zs= instead of current=", VOLT, at_most=Decimal(1000), default="230 V"
)
_ZS = number("zs", "loop impedance, instead of current=", OHM)
_TIME = number("time", "operating time of the device at that current", SECOND)
_CSA = number(
    "csa",
    "size of the conductor, to have the longest time, or with time= the highest current",
    SQUARE_MILLIMETRE,
    at_most=Decimal(1000),
)
_K = number("k", "adiabatic factor", K_FACTOR, at_most=Decimal(1000))
_MATERIAL = choice(
    "material",
    "instead of k=",
    {"copper": ("cu",), "aluminium": ("al", "aluminum"), "steel": (), "lead": ()},
    default="copper",
)
_INSULATION = words(
    "insulation", "instead of k=", "words of the table of k, such as 70 °C thermoplastic, 90 °C thermosetting or armour"
)


def _adiabatic(given: Given) -> FigureAnswer:
    scope = {
        name: named_figure("adiabatic_scope", name, given.edition) for name in ("holds up to", "maker's I²t below")
    }
    if given.has(_CSA):
        return _turned(given, scope)
    time = given.need(_TIME)
    if time > scope["holds up to"].value:
        raise NotAskableError(
            f"time is up to {scope['holds up to'].shown}: the adiabatic equation holds no longer than that"
        )
    current, how = _current(given)
    k, sources, taken = _k(given)
    size = next_size(sizes_as_made(given.edition), current, time, k)
    notes = (_next(size), *taken, *_brief(time, scope["maker's I²t below"]))
    answer = worked_out(least_csa(current, time, k), *sources, notes=notes)
    return answer.model_copy(update={"working": f"{how}{answer.working}"})


def _turned(given: Given, scope: Mapping[str, Limit]) -> FigureAnswer:
    """With the size typed: the longest time for a current, or the highest current for a time."""
    csa, (k, sources, taken) = given.need(_CSA), _k(given)
    if given.has(_TIME):
        given.refuse("csa= and time= give the current", _CURRENT, _ZS, _U0)
        return worked_out(highest_current(csa, given.need(_TIME), k), *sources, notes=taken)
    current, how = _current(given)
    answer = worked_out(longest_time(csa, current, k), *sources, notes=taken)
    most = scope["holds up to"]
    beyond = (f"the equation holds up to {most.shown} only",) if (answer.value or 0) > most.value else ()
    return answer.model_copy(update={"working": f"{how}{answer.working}", "notes": (*beyond, *answer.notes)})


def _next(size: SquareMillimetres | None) -> str:
    return f"next standard size {written(size)} mm²" if size else "no standard size of one conductor is enough"


def _brief(time: Seconds, below: Limit) -> tuple[str, ...]:
    if time >= below.value:
        return ()
    return (f"below {below.shown} the energy let through counts: use the maker's I²t instead of this sum",)


def _current(given: Given) -> tuple[Amperes, str]:
    """The fault current, and the sum it came from."""
    if given.one_of(_CURRENT, _ZS) is _CURRENT:
        given.refuse("current= is already the current", _U0)
        return given.need(_CURRENT), ""
    u0 = given.get(_U0, Volts(named_figure("loop", "U0", given.edition).value))
    zs = given.need(_ZS)
    return Amperes(u0 / zs), f"I = {written(u0)} V / {written(zs)} Ω; "


def _k(given: Given) -> tuple[AdiabaticFactor, tuple[Source, ...], tuple[str, ...]]:
    """The factor, where it stands, and the row taken and those that are not."""
    if given.has(_K):
        because = "k= is already the factor"
        given.refuse(because, _MATERIAL, _INSULATION)
        return given.need(_K), (), ()
    if not given.has(_INSULATION):
        raise NotAskableError("adiabatic needs k=, or insulation= with material=")
    row, others = _row(given, given.get(_MATERIAL, "copper"), given.need(_INSULATION))
    factor = row.figures["k"]
    taken = f"k = {factor.value}: {row.texts['material']}, {row.texts['conductor']}"
    return AdiabaticFactor(factor.value), (factor.source,), (taken, *others)


def _row(given: Given, material: str, insulation: str) -> tuple[LimitRow, tuple[str, ...]]:
    """The row meant, and what the words might have meant as well."""
    rows = conductors_called(material, insulation, given.edition)
    if not rows:
        known = "; ".join(_conductors(material, given))
        raise NotAskableError(f"insulation={insulation!r} is not in the table; for {material} it has: {known}")
    row = usual_among(rows)
    if row is None:
        may_be = "; ".join(each.texts["conductor"] for each in rows)
        raise NotAskableError(f"insulation={insulation!r} may be any of these: {may_be}")
    others = (f"not taken: {each.texts['conductor']}, k = {each.figures['k'].value}" for each in rows if each != row)
    return row, tuple(others)


def _conductors(material: str, given: Given) -> tuple[str, ...]:
    rows = table("k_values", given.edition).rows
    return tuple(row.texts["conductor"] for row in rows if row.texts["material"] == material)


ADIABATIC = Figure(
    "adiabatic",
    "least size of a conductor for a fault, and the next standard size; or how long, or how much, a size carries",
    "mm²",
    (_CURRENT, _U0, _ZS, _TIME, _CSA, _K, _MATERIAL, _INSULATION),
    (
        ("current=1200", "time=0.1", "k=115"),
        ("u0=230", "zs=0.5", "time=0.4", "material=copper", "insulation=70 °C thermoplastic"),
    ),
    _adiabatic,
    turned=(("csa=1.5", "current=1200", "k=115"),),
)
