"""What a circuit should read, from its sizes, its length, its device and what lies before it."""

from decimal import Decimal
from typing import NamedTuple

from domain.checks.shared.cables import has_three_phases, millivolts
from domain.checks.shared.circuits_in_use import Way, is_at_origin
from domain.checks.shared.feeders import feeds_of
from domain.checks.shared.per_job_cache import cached_per_job_and
from domain.checks.shared.system import is_contradicted, is_tt
from domain.checks.shared.tolerances import loop_margin
from domain.checks.shared.uses import use_of
from domain.edition import Edition
from domain.figures.formulas.conductor import r1_r2, resistance
from domain.figures.formulas.fault_current import fault_current
from domain.figures.formulas.loop import zs
from domain.figures.formulas.ring import quarter
from domain.figures.formulas.rounding import measurable
from domain.figures.formulas.voltage_drop import exact_drop, voltage_drop
from domain.figures.formulas.working import Working
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import named_figure, table
from domain.figures.units import (
    MILLIOHM_PER_METRE,
    VOLT,
    Amperes,
    Metres,
    MilliohmsPerMetre,
    Ohms,
    Volts,
)
from domain.job.board import Board
from domain.job.circuit import Circuit
from domain.job.job import Job
from domain.job.reading import Reading

_ENQUIRY = "enquiry"


class Expected(NamedTuple):
    """The figures of one circuit as they can be worked out; None where something they rest on is not known."""

    r1_r2: Working | None
    """From the sizes and the length, at 20 °C."""
    zs: Working | None
    """From what lies before the circuit and its R1+R2, the measured one where there is one."""
    fault_current: Working | None
    """Line to earth at the far end."""
    volt_drop: Working | None
    """With the rated current of the device at the far end; on a ring with what is usual for its middle."""


def expected_of(job: Job, way: Way) -> Expected:
    """What a circuit should read, each figure with its working."""
    inside = expected_r1_r2(way.circuit, job.edition)
    before, _ = impedance_before(job, way.board)
    part = way.circuit.r1_r2.figure
    if part is None and inside:
        part = inside.value
    loop = zs(before.figure, Ohms(part)) if before.figure is not None and part is not None else None
    return Expected(
        r1_r2=inside,
        zs=loop,
        fault_current=fault_current(voltage_to_earth(job), Ohms(loop.value))
        if loop and measurable(loop.value)
        else None,
        volt_drop=expected_drop(way, job.edition),
    )


def impedance_before(job: Job, board: Board) -> tuple[Reading[Ohms], str]:
    """The loop impedance at a board, or Ze in its place at the origin; and what it is called."""
    if (board.zs.figure is not None and board.id not in boards_denied(job)) or not is_at_origin(job, board):
        return board.zs, "Zdb"
    return job.supply.ze, "Ze"


@cached_per_job_and
def voltage_to_earth(job: Job) -> Limit[Volts]:
    """U0 as typed, or the nominal one where none is, or where U denies it."""
    nominal = named_figure("loop", "U0", job.edition).in_unit(VOLT)
    typed = None if is_contradicted(job) else job.supply.voltage_to_earth.figure
    return nominal.model_copy(update={"value": typed}) if typed is not None and typed > 0 else nominal


def by_the_metre(
    circuit: Circuit, edition: Edition
) -> tuple[Limit[MilliohmsPerMetre], Limit[MilliohmsPerMetre]] | None:
    """Resistance of line and cpc in milliohms a metre, as copper; None for a size outside the table."""
    line, cpc = circuit.live_csa.figure, circuit.cpc_csa.figure
    if line is None or cpc is None:
        return None
    resistances = table("conductor_resistance", edition)
    by_line, by_cpc = (resistances.limit_in(MILLIOHM_PER_METRE, "copper", csa) for csa in (line, cpc))
    return (by_line, by_cpc) if by_line and by_cpc else None


def expected_r1_r2(circuit: Circuit, edition: Edition) -> Working | None:
    """R1+R2 by the length; of a ring a quarter of both ends, its length being that of the whole ring."""
    length, conductors = circuit.length.figure, by_the_metre(circuit, edition)
    if length is None or conductors is None or not measurable(length):
        return None
    line, cpc = conductors
    if not circuit.is_ring:
        return r1_r2(line, cpc, length)
    return quarter(Ohms(resistance(line, length).value), Ohms(resistance(cpc, length).value)).model_copy(
        update={"source": line.source}
    )


def load_of(way: Way, edition: Edition) -> Amperes | None:
    """The current to reckon the drop with: Ib where it is typed, or the rating of the device; on a ring what is usual for its middle."""
    rating, design = way.circuit.rating.figure, way.circuit.design_current.figure
    if design is not None and design > 0:
        return Amperes(design)
    if rating is None or not way.circuit.is_ring:
        return None if rating is None else Amperes(rating)
    most = named_figure("circuit_rules", "ring, current taken at the middle for voltage drop", edition)
    return Amperes(min(rating, most.value))


def run_of(way: Way, edition: Edition) -> Metres | None:
    """The metres that the whole load flows over, as if it stood at the end of them.

    Half of a lighting run, whose load is spread along it; a quarter of a ring, which shares its load between two
    halves of half the length; all of any other run.
    """
    length = way.circuit.length.figure
    if length is None or way.circuit.is_ring:
        return None if length is None else Metres(length / 4)
    if use_of(way.circuit).lights:
        share = named_figure("circuit_rules", "lighting, share of the run that carries the rated current", edition)
        return Metres(length * share.value)
    return length


class DropBefore(NamedTuple):
    """What is lost between the origin and a board."""

    share: Decimal
    """Of the nominal voltage."""
    length: Decimal
    """Metres of the ways between."""


def drop_before(job: Job, board: Board) -> DropBefore | None:
    """The drop on the ways that feed a board, each with its Ib; None where one of them has none, or nothing lies between."""
    feeds, share, length, at, seen = feeds_of(job), Decimal(0), Decimal(0), board.id, {board.id}
    while (feed := feeds.get(at)) and feed.way and feed.board.id not in seen:
        way = Way(feed.board, feed.way, feeds_a_board=True)
        figure, load, run = millivolts(way, job.edition), feed.way.design_current.figure, feed.way.length.figure
        if figure is None or load is None or run is None or not measurable(load, run):
            return None
        share += exact_drop(figure.value, load, run) / nominal_of(way, job.edition).value
        length += run
        at = feed.board.id
        seen.add(at)
    return DropBefore(share, length) if length else None


def nominal_of(way: Way, edition: Edition) -> Limit[Volts]:
    """The voltage a drop on this circuit is a share of."""
    return named_figure(
        "supply_voltage", f"nominal, line to {'line' if has_three_phases(way) else 'earth'}", edition
    ).in_unit(VOLT)


def expected_drop(way: Way, edition: Edition) -> Working | None:
    """Voltage drop with the load of `load_of` over the length of `run_of`."""
    figure, load, run = millivolts(way, edition), load_of(way, edition), run_of(way, edition)
    if figure is None or load is None or run is None:
        return None
    found = voltage_drop(figure.value, load, run)
    return found.model_copy(update={"source": figure.source}) if found else None


@cached_per_job_and
def boards_denied(job: Job) -> frozenset[str]:
    """Ids of boards at the origin whose Zdb is denied by Ze and by a circuit, which both read less: nothing is held against it."""
    return frozenset(board.id for board in job.boards if _is_zdb_denied(job, board))


def _is_zdb_denied(job: Job, board: Board) -> bool:
    ze, zdb = job.supply.ze.figure, board.zs.figure
    if job.supply.ze_by == _ENQUIRY or ze is None or zdb is None or ze <= 0:
        return False
    if zdb <= ze + loop_margin(Ohms(ze), job.edition, on_tt=is_tt(job)):
        return False
    lowest = min((each.zs.figure for each in board.circuits if each.zs.figure is not None), default=zdb)
    return lowest < zdb and is_at_origin(job, board)
