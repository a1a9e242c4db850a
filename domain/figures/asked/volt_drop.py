"""Voltage drop of a run against what is allowed."""

from decimal import Decimal

from domain.edition import Edition
from domain.figures.asked.answer import FigureAnswer, NotAskableError, not_known, worked_out
from domain.figures.asked.figure import Figure
from domain.figures.asked.given import Given
from domain.figures.asked.key import choice, either, number
from domain.figures.formulas.rounding import half_up, written
from domain.figures.formulas.voltage_drop import exact_drop, highest_drop, highest_load, longest_run, voltage_drop
from domain.figures.limits.cables import DROP_TABLES, PHASES, drop_rows, drop_sizes
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import named_figure, table
from domain.figures.limits.table import LimitRow
from domain.figures.units import (
    AMPERE,
    METRE,
    MILLIVOLT_PER_AMPERE_METRE,
    SQUARE_MILLIMETRE,
    Metres,
    MillivoltsPerAmpereMetre,
    Volts,
)
from domain.source import Source


def _same_cable(name: str) -> tuple[str, ...]:
    """The table of currents of the same cable, and both together, may be named instead."""
    return (name.removesuffix("B"), f"{name.removesuffix('B')}A")


_TABLE = choice(
    "table",
    "the table of the cable",
    {name: (f"Table {name}", *_same_cable(name)) for name in DROP_TABLES},
)
_CSA = number("csa", "size of the conductors, with table=", SQUARE_MILLIMETRE, at_most=Decimal(1000))
_METHOD = choice("method", "how it is laid, where table 4D1B tells methods apart", {"A": (), "B": (), "C": ()})
_BY_AMPERE_AND_METRE = number(
    "mv-per-a-m", "instead of table= and csa=", MILLIVOLT_PER_AMPERE_METRE, at_most=Decimal(1000)
)
_CURRENT = number("current", "design current Ib", AMPERE, at_most=Decimal(10000))
_LENGTH = number("length", "length of the run", METRE, at_most=Decimal(10000))
_PHASES = choice("phases", "phases of the circuit", {"1": ("single", "one"), "3": ("three",)}, default="1")
_SUPPLY = choice("supply", "who supplies", {"public": (), "private": ()}, default="public")
_USE = choice(
    "use",
    "what the run feeds, where one of current= and length= is left out to have the most it can be",
    {"lighting": ("lights",), "other": ("other uses", "power")},
    default="other",
)
_PLACES = 2


def _volt_drop(given: Given) -> FigureAnswer:
    if given.has(_CURRENT) != given.has(_LENGTH):
        return _turned(given)
    given.refuse("it goes with one of current= and length=, to have the other", _USE)
    current, length = given.need(_CURRENT), given.need(_LENGTH)
    if given.has(_TABLE) and not given.has(_BY_AMPERE_AND_METRE) and not _rows(given):
        says = f"Table {given.need(_TABLE)}, {written(given.need(_CSA))} mm² by method {given.need(_METHOD)}: the figure is not known"
        return not_known("V", says, drop_rows(given.need(_TABLE), given.edition)[0].source)
    by, sources, named = _by_ampere_and_metre(given)
    nominal = _nominal(given)
    working = voltage_drop(by, current, length)
    drop = exact_drop(by, current, length)
    limits = table("voltage_drop_limits", given.edition).row(given.get(_SUPPLY, "public"))
    assert limits
    share = half_up(drop * 100 / nominal.value, _PLACES)
    notes = (
        f"{written(share)} % of {nominal.shown}",
        *(_against(limits, use, drop, nominal, length, given.edition) for use in ("lighting", "other")),
        *named,
    )
    return worked_out(working, *sources, limits.source, notes=notes)


def _turned(given: Given) -> FigureAnswer:
    """With one of current and length typed: the most the other can be within what is allowed."""
    by, sources, named = _by_ampere_and_metre(given)
    limits = table("voltage_drop_limits", given.edition).row(given.get(_SUPPLY, "public"))
    assert limits
    use = given.get(_USE, "other")
    share, nominal, more = limits.figures[use], _nominal(given), _of_long_runs(given.edition)
    if given.has(_CURRENT):
        working = longest_run(by, given.need(_CURRENT), nominal, share, *more)
    else:
        length = given.need(_LENGTH)
        working = highest_load(by, length, highest_drop(nominal, share, length, *more))
    allowed = f"within {share.shown} of {nominal.shown} for {'lighting' if use == 'lighting' else 'other uses'}"
    return worked_out(working, *sources, limits.source, notes=(allowed, *named))


def _of_long_runs(edition: Edition) -> tuple[Limit, Limit, Limit]:
    beyond, by_the_metre, most = (
        named_figure("voltage_drop_long_runs", name, edition)
        for name in ("beyond", "added by the metre", "added at most")
    )
    return beyond, by_the_metre, most


def _nominal(given: Given) -> Limit:
    if given.get(_PHASES, "1") == "3":
        return named_figure("supply_voltage", "nominal, line to line", given.edition)
    return named_figure("supply_voltage", "nominal, line to earth", given.edition)


def _against(limits: LimitRow, use: str, drop: Volts, nominal: Limit, length: Metres, edition: Edition) -> str:
    share = limits.figures[use]
    beyond, *_ = more = _of_long_runs(edition)
    highest = highest_drop(nominal, share, length, *more)
    longer = f", with what a run over {beyond.shown} may add" if length > beyond.value else ""
    verdict = "within" if drop <= highest else "over"
    named = "lighting" if use == "lighting" else "other uses"
    return f"{named}: {verdict} {share.shown}, that is {written(highest)} V{longer}"


def _by_ampere_and_metre(given: Given) -> tuple[MillivoltsPerAmpereMetre, tuple[Source, ...], tuple[str, ...]]:
    """The figure for an ampere and a metre, where it stands, and the row in words."""
    if given.one_of(_TABLE, _BY_AMPERE_AND_METRE) is _BY_AMPERE_AND_METRE:
        because = "mv-per-a-m= is already the figure of the table"
        given.refuse(because, _CSA, _METHOD)
        return given.need(_BY_AMPERE_AND_METRE), (), ()
    rows = _rows(given)
    column = PHASES[int(given.get(_PHASES, "1"))]
    if not all(column in row.figures for row in rows):
        raise NotAskableError(f"Table {given.need(_TABLE)} is for single-phase circuits; phases is 1 there")
    dearest = max(rows, key=lambda row: row.figures[column].value)
    limit = dearest.figures[column]
    laid = "" if dearest.texts["laid"] == "any method" else f", {dearest.texts['laid']}"
    row = f"{limit.shown}: Table {given.need(_TABLE)}, {written(given.need(_CSA))} mm²{laid}"
    return MillivoltsPerAmpereMetre(limit.value), (limit.source,), (row, *_seen(limit.source))


def _seen(source: Source) -> tuple[str, ...]:
    return (source.seen_in,) if source.seen_in.startswith("printed for") else ()


def _rows(given: Given) -> tuple[LimitRow, ...]:
    """The rows of the size, laid as typed; none where the table's figure for it is not known."""
    cable, csa, method = given.need(_TABLE), given.need(_CSA), given.maybe(_METHOD)
    of_size = tuple(row for row in drop_rows(cable, given.edition) if row.figures["csa"].value == csa)
    if not of_size:
        sizes = either(tuple(written(size) for size in drop_sizes(cable, given.edition)))
        raise NotAskableError(f"csa={written(csa)}: Table {cable} holds {sizes} mm²")
    return tuple(row for row in of_size if method is None or _is_laid(row.texts["laid"], method))


def _is_laid(laid: str, method: str) -> bool:
    return laid == "any method" or method in laid.replace(",", " ").split()


VOLT_DROP = Figure(
    "volt-drop",
    "voltage drop, as a share of the nominal voltage, against what is allowed; or the longest run, or the highest current",
    "V",
    (_TABLE, _CSA, _METHOD, _BY_AMPERE_AND_METRE, _CURRENT, _LENGTH, _PHASES, _SUPPLY, _USE),
    (
        ("table=4D5", "csa=2.5", "current=20", "length=25"),
        ("mv-per-a-m=7.3", "current=32", "length=30"),
        ("table=4E4B", "csa=16", "current=63", "length=120", "phases=3"),
    ),
    _volt_drop,
    turned=(
        ("table=4D5", "csa=2.5", "current=20"),
        ("table=4D5", "csa=1.5", "length=60", "use=lighting"),
    ),
)
