"""Sizes by selection, fault current behind a transformer and a cable, and diversity of final circuits."""

from decimal import Decimal

from domain.figures.asked.answer import FigureAnswer, NotAskableError, worked_out
from domain.figures.asked.figure import Figure
from domain.figures.asked.given import Given
from domain.figures.asked.key import either, number, words
from domain.figures.formulas.rounding import half_up, written
from domain.figures.formulas.working import Working
from domain.figures.limits.conductors import size_not_under
from domain.figures.limits.loader import named_figure, table
from domain.figures.limits.table import LimitRow
from domain.figures.units import AMPERE, KILOAMPERE, OHM, SQUARE_MILLIMETRE, VOLT, SquareMillimetres, Unit
from domain.source import Source, Trust

_PLACES = 2
_FINE_PLACES = 4
_THREE = 3
_LINE = number("line", "size of the line conductor", SQUARE_MILLIMETRE, at_most=Decimal(1000))
_CPC = number(
    "cpc",
    "size of the protective conductor, instead of line=, to have the largest line",
    SQUARE_MILLIMETRE,
    at_most=Decimal(1000),
)
_KVA = number("kva", "rating of the transformer", Unit("kVA", Decimal), at_most=Decimal(100000))
_PERCENT = number("impedance", "its impedance", Unit("%", Decimal), at_most=Decimal(100))
_VOLTAGE = number("voltage", "between lines, without load", VOLT, at_most=Decimal(1000), default="400 V")
_CABLE = number("z", "impedance of one line of the cable behind it", OHM, at_most=Decimal(100), default="0 Ω")
_KILOAMPERES = number(
    "current", "the fault current: the rating it needs, with kva= the impedance that lets it flow, with both the cable", KILOAMPERE,
    at_most=Decimal(1000),
)  # fmt: skip
_LOAD = number("load", "rated current of what the circuit feeds, all together", AMPERE, at_most=Decimal(10000))
_TAKEN = number("taken", "what is left of it, instead of load=, to have the load", AMPERE, at_most=Decimal(10000))
_USE = words("use", "what the circuit feeds", "a use of the table, such as lighting, cooker or shower")
_IMPEDANCES = Source(
    standard="BS EN 60909-0",
    table="impedances of a transformer and of the line behind it, added as amounts",
    seen_in="the rule itself; adding amounts gives a little less than adding R and X apart",
    trust=Trust.COMMON_PRACTICE,
)


def _by_table(given: Given) -> FigureAnswer:
    if given.one_of(_LINE, _CPC) is _CPC:
        return _largest_line(given)
    line = given.need(_LINE)
    for row in table("min_cpc", given.edition).rows:
        up_to, share, fixed = row.figures.get("line_up_to"), row.figures.get("share"), row.figures.get("at_least")
        if row.figures["line_over"].value < line and (up_to is None or line <= up_to.value):
            value = fixed.value if fixed else line * share.value if share else line
            sums = (
                f"{fixed.shown}"
                if fixed
                else f"{written(line)} mm² × {share.value if share else 1} = {written(value)} mm²"
            )
            size = size_not_under(SquareMillimetres(value), given.edition)
            made = (f"the next size made is {written(size)} mm²",) if size is not None and size != value else ()
            notes = (
                *made,
                "of the same metal as the line; a smaller one must carry the fault by the adiabatic equation",
            )
            return worked_out(Working(value=value, unit="mm²", sum=sums, source=row.source), notes=notes)
    raise NotAskableError("line is a size above 0")


def _largest_line(given: Given) -> FigureAnswer:
    """The table turned: the largest line conductor that a cpc is enough for."""
    cpc, answer = given.need(_CPC), Decimal(0)
    source = table("min_cpc", given.edition).rows[0].source
    for row in table("min_cpc", given.edition).rows:
        over, up_to = row.figures["line_over"].value, row.figures.get("line_up_to")
        share, fixed = row.figures.get("share"), row.figures.get("at_least")
        most = (up_to.value if up_to else None) if fixed else cpc / share.value if share else cpc
        if fixed and cpc < fixed.value:
            continue
        most = min(most, up_to.value) if most is not None and up_to else most
        if most is not None and most > max(over, answer):
            answer, source = most, row.source
    if not answer:
        raise NotAskableError("cpc is a size above 0")
    sums = f"{written(cpc)} mm² is enough for a line of up to {written(answer)} mm²"
    return worked_out(Working(value=answer, unit="mm²", sum=sums, source=source))


def _behind_a_transformer(given: Given) -> FigureAnswer:
    if given.has(_KILOAMPERES):
        return _transformer_for(given)
    kva, percent = given.need(_KVA), given.need(_PERCENT)
    usual = named_figure("supply_voltage", "nominal, line to line", given.edition)
    voltage, cable = given.get(_VOLTAGE, usual.value), given.maybe(_CABLE) or Decimal(0)
    own = voltage**2 * percent.scaleb(-2) / (kva * 1000)
    whole = own + cable
    value = half_up(voltage / (Decimal(_THREE).sqrt() * whole) / 1000, _PLACES)
    first = f"{written(voltage)}² × {written(percent)} % / {written(kva)} kVA = {written(half_up(own, 5))} Ω"
    second = f"{written(voltage)} V / (√3 × {written(half_up(whole, 5))} Ω) = {value} kA"
    notes = ("between three lines, at the terminals" if not cable else "between three lines, at the end of the cable",)
    return worked_out(Working(value=value, unit="kA", sum=f"{first}; {second}", source=_IMPEDANCES), notes=notes)


def _transformer_for(given: Given) -> FigureAnswer:
    """The same turned: whichever of rating, impedance and cable is not typed, for a current at its end."""
    usual = named_figure("supply_voltage", "nominal, line to line", given.edition)
    voltage, current = given.get(_VOLTAGE, usual.value), given.need(_KILOAMPERES)
    kva, percent, cable = given.maybe(_KVA), given.maybe(_PERCENT), given.maybe(_CABLE)
    whole = voltage / (Decimal(_THREE).sqrt() * current * 1000)
    first = f"{written(voltage)} V / (√3 × {written(current)} kA) = {written(half_up(whole, 5))} Ω"
    if kva and percent:
        given.refuse("rating and impedance leave the cable to be found", _CABLE)
        own = voltage**2 * percent.scaleb(-2) / (kva * 1000)
        return _left(
            whole, own, "Ω", whole - own, _FINE_PLACES, f"{first}; less {written(half_up(own, 5))} Ω of the transformer"
        )
    own = whole - (cable or Decimal(0))
    first += f", less {written(cable)} Ω of the cable" if cable else ""
    if kva:
        value = own * kva * 1000 / voltage**2 * 100
        return _left(whole, cable, "%", value, _PLACES, f"{first}; × {written(kva)} kVA / {written(voltage)}²")
    percent = given.need(_PERCENT)
    value = voltage**2 * percent.scaleb(-2) / own / 1000 if own > 0 else own
    return _left(whole, cable, "kVA", value, 0, f"{first}; {written(voltage)}² × {written(percent)} % / that")


def _left(whole: Decimal, part: Decimal | None, unit: str, value: Decimal, places: int, sums: str) -> FigureAnswer:
    if part is not None and part >= whole:
        raise NotAskableError(f"such a current does not come through {written(half_up(part, 5))} Ω")
    shown = half_up(value, places)
    found = Working(value=shown, unit=unit, sum=f"{sums} = {written(shown)} {unit}", source=_IMPEDANCES)
    return worked_out(found, notes=("between three lines",))


def _diversity(given: Given) -> FigureAnswer:
    rows = table("diversity", given.edition)
    use = given.need(_USE).casefold()
    row = next((each for each in rows.rows if each.texts["use"] == use), None)
    if row is None:
        raise NotAskableError(f"use is {either(tuple(each.texts['use'] for each in rows.rows))}, not {use!r}")
    if given.one_of(_LOAD, _TAKEN) is _TAKEN:
        return _load_for(given, row)
    load, first, share = given.need(_LOAD), row.figures["in_full"], row.figures["share"]
    full = min(load, first.value)
    value = half_up(full + (load - full) * share.value.scaleb(-2), _PLACES)
    rest = f" + {written(load - full)} A × {share.shown}" if load > full else ""
    working = Working(value=value, unit="A", sum=f"{written(full)} A{rest} = {written(value)} A", source=row.source)
    return worked_out(working, notes=("guidance, not a rule; the designer answers for what is taken",))


def _load_for(given: Given, row: LimitRow) -> FigureAnswer:
    """The allowance turned: the load of which so much is taken."""
    taken, first, share = given.need(_TAKEN), row.figures["in_full"].value, row.figures["share"]
    full = min(taken, first)
    value = half_up(full + (taken - full) / share.value.scaleb(-2), _PLACES)
    rest = f" + {written(taken - full)} A / {share.shown}" if taken > full else ""
    working = Working(value=value, unit="A", sum=f"{written(full)} A{rest} = {written(value)} A", source=row.source)
    return worked_out(working, notes=("the load of which so much is taken; guidance, not a rule",))


CPC_BY_TABLE = Figure(
    "cpc-by-table",
    "smallest protective conductor by selection, Table 54.7, or the largest line for one",
    "mm²",
    (_LINE, _CPC),
    (("line=25",), ("cpc=16",)),
    _by_table,
)
TRANSFORMER = Figure(
    "transformer-fault-current",
    "fault current behind a transformer, and a cable after it, or what of them gives a current",
    "kA",
    (_KVA, _PERCENT, _VOLTAGE, _CABLE, _KILOAMPERES),
    (("kva=500", "impedance=4.75"), ("kva=500", "impedance=4.75", "z=0.01")),
    _behind_a_transformer,
    turned=(("current=16", "impedance=4.75"), ("current=16", "kva=500"), ("current=10", "kva=500", "impedance=4.75")),
)
DIVERSITY = Figure(
    "diversity",
    "current taken for a final circuit of a home after diversity, or the load for one",
    "A",
    (_USE, _LOAD, _TAKEN),
    (("use=cooker", "load=45"), ("use=lighting", "load=12"), ("use=cooker", "taken=20.5")),
    _diversity,
)
