"""What a cable carries where it is laid, and whether load and device suit it."""

from collections.abc import Mapping
from decimal import Decimal

from domain.figures.asked.answer import FigureAnswer, NotAskableError, not_known, worked_out
from domain.figures.asked.figure import Figure
from domain.figures.asked.given import Given
from domain.figures.asked.key import FigureKey, choice, either, number
from domain.figures.formulas.cable_rating import cable_rating, exact_rating
from domain.figures.formulas.rounding import written
from domain.figures.formulas.working import Working
from domain.figures.limits.cables import (
    CAPACITY_TABLES,
    IN_THE_GROUND,
    INSULATION,
    capacity,
    capacity_sizes,
    factor_not_kinder,
    last_factor,
    methods,
)
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import table
from domain.figures.units import AMPERE, DEGREE, SQUARE_MILLIMETRE, TIMES, Amperes, SquareMillimetres, Unit

_MOST = Decimal(2)


def _same_cable(name: str) -> tuple[str, ...]:
    """The table of voltage drop of the same cable, and both together, may be named instead."""
    if not name.endswith("A"):
        return (f"{name}A",) if name[-1].isdigit() else ()
    return (name[:-1], f"{name[:-1]}B")


_TABLE = choice(
    "table",
    "the table of the cable",
    {name: (f"Table {name}", *_same_cable(name)) for name in CAPACITY_TABLES},
)
_CSA = number(
    "csa",
    "size of the conductors; left out with in=, to have the smallest that carries it",
    SQUARE_MILLIMETRE,
    at_most=Decimal(1000),
)
_METHOD = choice(
    "method",
    "how it is laid",
    {name: (f"method {name}",) for name in ("A", "B", "C", "D", "E", "100", "101", "102", "103")},
)
_PHASES = choice("phases", "phases of the circuit", {"1": ("single", "one"), "3": ("three",)}, default="1")
_CA = number("ca", "rating factor for the temperature of the air", TIMES, at_most=_MOST, default="1")
_AMBIENT = number("ambient", "temperature of the air, instead of ca=", DEGREE, at_most=Decimal(100))
_CG = number("cg", "rating factor for circuits laid together", TIMES, at_most=_MOST, default="1")
_CIRCUITS = number(
    "circuits", "how many circuits lie together, instead of cg=", TIMES, at_least=Decimal(1), at_most=Decimal(100)
)
_BUNCHED = "bunched or enclosed"
_ARRANGEMENT = choice(
    "arrangement",
    "how they lie, with circuits=",
    {
        _BUNCHED: ("bunched", "enclosed"),
        "single layer on a wall or floor": ("single layer",),
        "single layer on a perforated tray": ("tray",),
    },
    default=_BUNCHED,
)
_CI = number("ci", "rating factor for thermal insulation", TIMES, at_most=_MOST, default="1")
_IN_INSULATION = number(
    "in-insulation", "how far it runs wholly surrounded by thermal insulation, instead of ci=", Unit("mm", Decimal)
)
_CF = number("cf", "rating factor for the device", TIMES, at_most=_MOST, default="1")
_DEVICE = choice("device", "instead of cf=", {"BS 3036": ("3036",), "any other": ("other",)})
_IN = number("in", "rated current of the device", AMPERE, at_most=Decimal(10000))
_IB = number("ib", "design current", AMPERE, at_most=Decimal(10000))


def _cable_rating(given: Given) -> FigureAnswer:
    if not given.has(_CSA) and given.has(_IN):
        return _smallest_size(given)
    tabulated = _tabulated(given, given.need(_CSA))
    looked_up = {"Ca": _ca(given), "Cg": _cg(given), "Ci": _ci(given), "Cf": _cf(given)}
    factors = {name: factor for name, factor in _factors(given, looked_up).items() if factor is not None}
    sources = tuple(limit.source for limit in looked_up.values() if limit)
    notes = (*_coordination(given, exact_rating(tabulated.value, factors)), *_cautions(given))
    return worked_out(cable_rating(tabulated, factors), *sources, notes=notes)


def _smallest_size(given: Given) -> FigureAnswer:
    """With the device typed and no size: the smallest size of the table whose Iz is no less than In."""
    looked_up = {"Ca": _ca(given), "Cg": _cg(given), "Ci": _ci(given), "Cf": _cf(given)}
    factors = {name: factor for name, factor in _factors(given, looked_up).items() if factor is not None}
    rated = given.need(_IN)
    for csa in capacity_sizes(given.need(_TABLE), given.edition):
        if not _is_held(given, csa):
            continue
        limit = _tabulated(given, csa)
        iz = cable_rating(limit, factors)
        if iz is not None and exact_rating(limit.value, factors) >= rated:
            sums = f"{written(csa)} mm² carries {iz.sum}"
            sources = tuple(each.source for each in looked_up.values() if each)
            notes = (*_coordination(given, exact_rating(limit.value, factors)), *_cautions(given))
            return worked_out(Working(value=csa, unit="mm²", sum=sums, source=limit.source), *sources, notes=notes)
    return not_known(
        "mm²",
        f"Table {given.need(_TABLE)} for {written(rated)} A",
        because="no size of the table carries so much as laid",
    )


def _is_held(given: Given, csa: SquareMillimetres) -> bool:
    """The table has a figure for the size as it is laid; a method or a number of phases it does not know is refused elsewhere."""
    method, phases = given.need(_METHOD), int(given.get(_PHASES, "1"))
    known = methods(given.need(_TABLE), phases, given.edition)
    return method not in known or capacity(given.need(_TABLE), csa, method, phases, given.edition) is not None


def _tabulated(given: Given, csa: SquareMillimetres) -> Limit[Amperes]:
    cable, method = given.need(_TABLE), given.need(_METHOD)
    phases = int(given.get(_PHASES, "1"))
    known = methods(cable, phases, given.edition)
    if not known:
        raise NotAskableError(f"Table {cable} is for single-phase circuits; phases is 1 there")
    if method not in known:
        raise NotAskableError(f"method is {either(known)} in Table {cable}, not {method}")
    limit = capacity(cable, csa, method, phases, given.edition)
    if limit is None:
        sizes = either(tuple(written(size) for size in capacity_sizes(cable, given.edition)))
        raise NotAskableError(f"csa={written(csa)}: Table {cable} holds {sizes} mm²")
    return limit


def _factors(given: Given, looked_up: Mapping[str, Limit | None]) -> Mapping[str, Decimal | None]:
    typed: Mapping[str, FigureKey[Decimal]] = {"Ca": _CA, "Cg": _CG, "Ci": _CI, "Cf": _CF}
    return {name: limit.value if limit else given.maybe(typed[name]) for name, limit in looked_up.items()}


def _ca(given: Given) -> Limit | None:
    ambient = given.maybe(_AMBIENT)
    if ambient is None:
        return None
    given.refuse("ambient= stands for it", _CA)
    if given.need(_METHOD) == IN_THE_GROUND:
        given.refuse("it is the air, and method D is in the ground; type ca= for the soil instead", _AMBIENT)
    insulation = INSULATION[given.need(_TABLE)]
    factor = factor_not_kinder("ambient_factors", (insulation,), ambient, given.edition)
    if factor is None:
        raise NotAskableError(
            f"ambient={written(ambient)}: the table of {insulation} cables ends below that; the cable is not meant for it"
        )
    return factor


def _cg(given: Given) -> Limit | None:
    circuits = given.maybe(_CIRCUITS)
    if circuits is None:
        given.refuse("it goes with circuits=", _ARRANGEMENT)
        return None
    given.refuse("circuits= stands for it", _CG)
    factor = factor_not_kinder("grouping_factors", (given.get(_ARRANGEMENT, _BUNCHED),), circuits, given.edition)
    if factor is None:
        raise NotAskableError(f"circuits={written(circuits)}: the table ends below that; type cg= instead")
    return factor


def _ci(given: Given) -> Limit | None:
    length = given.maybe(_IN_INSULATION)
    if length is None:
        return None
    given.refuse("in-insulation= stands for it", _CI)
    name = "thermal_insulation_factors"
    return factor_not_kinder(name, (), length, given.edition) or last_factor(name, given.edition)


def _cf(given: Given) -> Limit | None:
    device = given.maybe(_DEVICE)
    if device is None:
        return None
    given.refuse("device= stands for it", _CF)
    return table("fuse_factors", given.edition).limit("factor", device)


def _coordination(given: Given, iz: Decimal) -> tuple[str, ...]:
    rated, load = given.maybe(_IN), given.maybe(_IB)
    if rated is None:
        given.refuse("it goes with in=", _IB)
        return ()
    numbers = " ≤ ".join(written(each) for each in (load, rated) if each is not None)
    rule = "In ≤ Iz" if load is None else "Ib ≤ In ≤ Iz"
    holds = rated <= iz and (load is None or load <= rated)
    return (f"{rule} {'holds' if holds else 'does not hold'}: {numbers} ≤ {written(iz)} A",)


def _cautions(given: Given) -> tuple[str, ...]:
    caution = "terminals are normally good for 70 °C only: use the 70 °C table unless they are marked for 90 °C"
    return (caution,) if INSULATION[given.need(_TABLE)].startswith("90") else ()


CABLE_RATING = Figure(
    "cable-rating",
    "current-carrying capacity Iz as laid, and Ib ≤ In ≤ Iz; or the smallest size for a device",
    "A",
    (
        _TABLE,
        _CSA,
        _METHOD,
        _PHASES,
        _CA,
        _AMBIENT,
        _CG,
        _CIRCUITS,
        _ARRANGEMENT,
        _CI,
        _IN_INSULATION,
        _CF,
        _DEVICE,
        _IN,
        _IB,
    ),
    (
        ("table=4D5", "csa=2.5", "method=C", "in=20", "ib=16"),
        ("table=4D2A", "csa=4", "method=B", "ca=0.94", "cg=0.8", "in=20"),
        ("table=4D5", "csa=6", "method=100", "device=BS 3036", "in=30"),
        ("table=4E4A", "csa=16", "method=E", "phases=3", "ambient=35", "circuits=3", "arrangement=tray"),
    ),
    _cable_rating,
    turned=(("table=4D5", "method=100", "in=32"),),
)
