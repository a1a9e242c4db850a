"""The tables of cables as the wiring and the reference method of a circuit choose them."""

import re
from decimal import Decimal
from functools import lru_cache

from domain.checks.shared.circuits_in_use import Way
from domain.edition import Edition
from domain.figures.limits.cables import CAPACITY_TABLES, drop_of
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import table
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


@lru_cache(maxsize=512)
def method_in(typed: str) -> str:
    """The letter or number of `C`, `method 101` …; "" where the text is none."""
    match = _METHOD.fullmatch(typed.strip().casefold())
    return match[1] if match else ""


def has_three_phases(way: Way) -> bool:
    """The number says that the circuit uses all three phases of its board."""
    return way.board.phases.strip() == "3" and bool(_THREE_PHASES.search(way.circuit.number))


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


def capacity(way: Way, edition: Edition) -> Limit | None:
    """What the table gives for the cable as it is laid, no factor applied; None where no table is known."""
    csa, method = way.circuit.live_csa.figure, method_in(way.circuit.method)
    if csa is None or not method:
        return None
    column = f"method_{method}_{'three' if has_three_phases(way) else 'single'}_phase"
    found = (table(name, edition).limit(column, csa) for name in _capacity_tables(way, edition))
    return next((limit for limit in found if limit), None)


def highest_capacity(csa: Decimal, edition: Edition) -> Limit | None:
    """The most a copper conductor of this size carries by any method of the tables, cables for 90 °C included."""
    rows = [table(name, edition).row(csa) for name in CAPACITY_TABLES.values()]
    figures = [limit for row in rows if row for column, limit in row.figures.items() if column != "csa"]
    return max(figures, key=lambda limit: limit.value, default=None)


def millivolts(way: Way, edition: Edition) -> Limit | None:
    """Voltage drop in millivolts for an ampere and a metre; None where no table is known."""
    csa, wiring = way.circuit.live_csa.figure, way.circuit.wiring.strip().upper()
    if csa is None:
        return None
    drops = table("volt_drop_70", edition)
    column = "three_phase" if has_three_phases(way) else "single_phase"
    if wiring == _SHEATHED:
        flat = drops.limit(column, "4D5", "any method", csa) if is_flat(way, edition) else None
        return flat or drops.limit(column, "4D2B", "any method", csa)
    if wiring in _IN_CONTAINMENT:
        return drops.limit(column, "4D1B", "method A or B", csa)
    if wiring in _ARMOURED or wiring == _MINERAL:
        cable = f"{_ARMOURED.get(wiring, _MINERAL_TABLE)}B"
        return drop_of(cable, csa, 3 if has_three_phases(way) else 1, edition)
    return None


def _capacity_tables(way: Way, edition: Edition) -> tuple[str, ...]:
    wiring = way.circuit.wiring.strip().upper()
    if wiring == _SHEATHED:
        is_45 = is_flat(way, edition) or method_in(way.circuit.method) in _FLAT_ONLY
        return ("capacity_4d5", "capacity_4d2a") if is_45 else ("capacity_4d2a",)
    if wiring in _ARMOURED:
        return (CAPACITY_TABLES[f"{_ARMOURED[wiring]}A"],)
    return ("capacity_4d1a",) if wiring in _IN_CONTAINMENT else ()
