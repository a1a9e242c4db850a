"""The tables of cables as the wiring and the reference method of a circuit choose them."""

import re
from functools import lru_cache

from domain.checks.shared.circuits_in_use import Way
from domain.checks.shared.uses import use_of
from domain.edition import Edition
from domain.figures.limits.cables import CAPACITY_TABLES, drop_of, factor_not_kinder, last_factor
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import named_figure, table
from domain.figures.units import (
    AMPERE,
    MILLIVOLT_PER_AMPERE_METRE,
    Amperes,
    MillivoltsPerAmpereMetre,
    SquareMillimetres,
)
from domain.job.circuit import Circuit

_METHOD = re.compile(r"(?:ref(?:erence)?\.?)?\s*(?:method)?\s*([a-g]|10[0-3])")
_THREE_PHASES = re.compile(r"tp|3p|l1\W*l2|l1\W+l3|l1\W*-\W*l?3", re.IGNORECASE)
_FLAT_ONLY = ("100", "101", "102", "103")
_EARTHED_METAL = {"B", "D", "F", "G", "H"}
_IN_CONTAINMENT = {"B", "C", "D", "E"}
_SHEATHED = "A"
_ARMOURED = {"F": "4D4", "G": "4E4"}
"""Thermoplastic and thermosetting cables with steel wire armour, and the tables they stand in."""
_MINERAL, _MINERAL_TABLE = "H", "4G1"
_THERMOSETTING = "G"
HOT_TERMINALS = "90 °C"
"""What the terminals of a cable stand, as their box says it, that may run so hot."""


@lru_cache(maxsize=512)
def method_in(typed: str) -> str:
    """The letter or number of `C`, `method 101` …; "" where the text is none."""
    match = _METHOD.fullmatch(typed.strip().casefold())
    return match[1] if match else ""


def has_three_phases(way: Way) -> bool:
    """The circuit uses all three phases of its board, as its number says, or the board it feeds."""
    if way.board.phases.strip() != "3":
        return False
    return way.feeds_three_phases or says_three_phases(way.circuit.number)


def says_three_phases(number: str) -> bool:
    """A number such as `3TP` or `L1-L3`."""
    return bool(_THREE_PHASES.search(number))


def runs_in_earthed_metal(circuit: Circuit) -> bool:
    """Its conduit, trunking, armour or sheath is earthed and shares the fault current."""
    return circuit.wiring.strip().upper() in _EARTHED_METAL


def is_flat(way: Way, edition: Edition) -> bool:
    """Flat twin and earth: a sheathed cable with the sizes it is made in, on a single phase."""
    circuit = way.circuit
    line, cpc = circuit.live_csa.figure, circuit.cpc_csa.figure
    if circuit.wiring.strip().upper() != _SHEATHED or has_three_phases(way) or line is None or cpc is None:
        return False
    row = table("r1_r2", edition).row(line, cpc)
    return row is not None and "made_as" in row.texts


def capacity(way: Way, edition: Edition) -> Limit[Amperes] | None:
    """What the table gives for the cable as it is laid, no factor applied; None where no table is known."""
    csa, method = way.circuit.live_csa.figure, method_in(way.circuit.method)
    if csa is None or not method:
        return None
    column = f"method_{method}_{'three' if has_three_phases(way) else 'single'}_phase"
    found = (table(name, edition).limit_in(AMPERE, column, csa) for name in _capacity_tables(way, edition))
    return next((limit for limit in found if limit), None)


def highest_capacity(csa: SquareMillimetres, edition: Edition) -> Limit[Amperes] | None:
    """The most a copper conductor of this size carries by any method of the tables, cables for 90 °C included."""
    rows = [table(name, edition).row(csa) for name in CAPACITY_TABLES.values()]
    figures = [limit.in_unit(AMPERE) for row in rows if row for column, limit in row.figures.items() if column != "csa"]
    return max(figures, key=lambda limit: limit.value, default=None)


def in_service(circuit: Circuit, edition: Edition) -> Limit:
    """What the resistance of a conductor at 20 °C is multiplied by at the highest temperature its insulation may have."""
    said = {"kind": "in service", "insulation": _insulation(circuit), "cpc": "incorporated or bunched"}
    rows = table("temperature_factors", edition).rows
    usual = {**said, "insulation": "70 °C thermoplastic"}
    return next(row.figures["factor"] for wanted in (said, usual) for row in rows if row.texts == wanted)


def rating_factors(way: Way, edition: Edition) -> dict[str, Limit]:
    """The factors for grouping, ambient temperature and thermal insulation that were typed for, and those the table's notes ask for.

    Between two rows of a table the less kind one holds. Bunched is taken of a group, as nobody says that it is laid apart.
    """
    circuit, found = way.circuit, dict[str, Limit | None]()
    buried = method_in(circuit.method) == "d"
    if (group := circuit.grouped.figure) is not None and group > 1 and not buried:
        found["Cg"] = factor_not_kinder("grouping_factors", ("bunched or enclosed",), group, edition)
    if (ambient := circuit.ambient.figure) is not None and not buried:
        found["Ca"] = factor_not_kinder("ambient_factors", (_insulation(circuit),), ambient, edition)
    if (length := circuit.in_insulation.figure) is not None and length > 0:
        factors = factor_not_kinder("thermal_insulation_factors", (), length, edition)
        found["Ci"] = factors or last_factor("thermal_insulation_factors", edition)
    if buried:
        found["Cc"] = named_figure("circuit_rules", "cable in the ground, share of Iz", edition)
    if circuit.wiring.strip().upper() == _MINERAL and use_of(circuit).touched:
        found["Ct"] = named_figure("circuit_rules", "bare mineral cable exposed to touch, factor", edition)
    return {name: limit for name, limit in found.items() if limit}


def over_the_ambient_table(way: Way, edition: Edition) -> Limit | None:
    """The hottest the table of ambient factors holds for the cable, where it is hotter than that; None elsewhere."""
    ambient = way.circuit.ambient.figure
    if ambient is None or method_in(way.circuit.method) == "d":
        return None
    rows = [row for row in table("ambient_factors", edition).rows if _insulation(way.circuit) in row.texts.values()]
    hottest = max((row.figures["ambient"] for row in rows), key=lambda limit: limit.value, default=None)
    return hottest if hottest is not None and ambient > hottest.value else None


def _insulation(circuit: Circuit) -> str:
    wiring = circuit.wiring.strip().upper()
    if wiring == _MINERAL:
        return "70 °C mineral"
    is_hot = wiring == _THERMOSETTING and circuit.terminals.strip() == HOT_TERMINALS
    return "90 °C thermosetting" if is_hot else "70 °C thermoplastic"


def millivolts(way: Way, edition: Edition) -> Limit[MillivoltsPerAmpereMetre] | None:
    """Voltage drop in millivolts for an ampere and a metre; None where no table is known."""
    csa, wiring = way.circuit.live_csa.figure, way.circuit.wiring.strip().upper()
    if csa is None:
        return None
    drops = table("volt_drop_70", edition)
    column = "three_phase" if has_three_phases(way) else "single_phase"
    if wiring == _SHEATHED:
        flat = (
            drops.limit_in(MILLIVOLT_PER_AMPERE_METRE, column, "4D5", "any method", csa)
            if is_flat(way, edition)
            else None
        )
        return flat or drops.limit_in(MILLIVOLT_PER_AMPERE_METRE, column, "4D2B", "any method", csa)
    if wiring in _IN_CONTAINMENT:
        return drops.limit_in(MILLIVOLT_PER_AMPERE_METRE, column, "4D1B", "method A or B", csa)
    if wiring in _ARMOURED or wiring == _MINERAL:
        cable = f"{_ARMOURED.get(wiring, _MINERAL_TABLE)}B"
        return drop_of(cable, SquareMillimetres(csa), 3 if has_three_phases(way) else 1, edition)
    return None


def _capacity_tables(way: Way, edition: Edition) -> tuple[str, ...]:
    wiring = way.circuit.wiring.strip().upper()
    if wiring == _SHEATHED:
        is_45 = is_flat(way, edition) or method_in(way.circuit.method) in _FLAT_ONLY
        return ("capacity_4d5", "capacity_4d2a") if is_45 else ("capacity_4d2a",)
    if wiring == _THERMOSETTING and way.circuit.terminals.strip() != HOT_TERMINALS:
        return (CAPACITY_TABLES["4D4A"],)
    if wiring in _ARMOURED:
        return (CAPACITY_TABLES[f"{_ARMOURED[wiring]}A"],)
    if wiring == _MINERAL:
        return (CAPACITY_TABLES["4G1A 750 V"], CAPACITY_TABLES["4G1A 500 V"])
    return ("capacity_4d1a",) if wiring in _IN_CONTAINMENT else ()
