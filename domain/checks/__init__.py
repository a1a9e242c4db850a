"""The checks, in the order of testing. Each is a plain function that yields findings."""

from collections.abc import Callable, Iterator

from domain.checks.additional_protection import additional_protection
from domain.checks.board_names import board_names
from domain.checks.bonding import bonding
from domain.checks.breaking_capacity import breaking_capacity
from domain.checks.calibration import calibration
from domain.checks.confirmed import confirmed
from domain.checks.continuity import continuity
from domain.checks.contradictions import contradictions
from domain.checks.disconnection_time import disconnection_time
from domain.checks.earth_fault import earth_fault_loop
from domain.checks.earth_fault_tt import earth_fault_loop_tt
from domain.checks.edition_named import edition_named
from domain.checks.external_impedance import external_impedance
from domain.checks.fault_current import fault_current_fits
from domain.checks.insulation import insulation
from domain.checks.loop_adds_up import loop_adds_up
from domain.checks.made_up import made_up
from domain.checks.overload import overload
from domain.checks.protective_conductors import protective_conductors
from domain.checks.rcd_kind import rcd_kind
from domain.checks.rcd_time import rcd_time
from domain.checks.recommended import recommended
from domain.checks.ring import ring
from domain.checks.run_length import run_length
from domain.checks.sizes_made import sizes_made
from domain.checks.sub_boards import sub_boards
from domain.checks.supply_fits import supply_fits
from domain.checks.volt_drop import volt_drop
from domain.finding import Finding
from domain.job import Job

Check = Callable[[Job], Iterator[Finding]]

CHECKS: tuple[Check, ...] = (
    edition_named,
    calibration,
    supply_fits,
    board_names,
    contradictions,
    sizes_made,
    overload,
    volt_drop,
    bonding,
    protective_conductors,
    continuity,
    ring,
    run_length,
    insulation,
    confirmed,
    external_impedance,
    sub_boards,
    loop_adds_up,
    disconnection_time,
    earth_fault_loop,
    earth_fault_loop_tt,
    fault_current_fits,
    breaking_capacity,
    additional_protection,
    rcd_kind,
    rcd_time,
    recommended,
    made_up,
)


def findings_of(job: Job) -> tuple[Finding, ...]:
    """Every finding of every check, in order of testing."""
    return tuple(finding for check in CHECKS for finding in check(job))
