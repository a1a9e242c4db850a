"""The checks, in the order of testing. Each is a plain function that yields findings."""

from collections.abc import Callable, Iterator

from domain.checks.dead_tests.continuity import continuity
from domain.checks.dead_tests.insulation import insulation
from domain.checks.dead_tests.ring import ring
from domain.checks.dead_tests.run_length import run_length
from domain.checks.live_tests.earth_fault import earth_fault_loop
from domain.checks.live_tests.earth_fault_tt import earth_fault_loop_tt
from domain.checks.live_tests.loop_adds_up import loop_adds_up
from domain.checks.live_tests.rcd_time import rcd_time
from domain.checks.protection.additional_protection import additional_protection
from domain.checks.protection.breaking_capacity import breaking_capacity
from domain.checks.protection.disconnection_time import disconnection_time
from domain.checks.protection.non_standard_sizes import sizes_made
from domain.checks.protection.overload import overload
from domain.checks.protection.protective_conductors import protective_conductors
from domain.checks.protection.rcd_kind import rcd_kind
from domain.checks.protection.volt_drop import volt_drop
from domain.checks.supply.bonding import bonding
from domain.checks.supply.external_impedance import external_impedance
from domain.checks.supply.fault_current import fault_current_fits
from domain.checks.supply.phase_sequence import phase_sequence
from domain.checks.supply.sub_boards import sub_boards
from domain.checks.supply.supply_fits import supply_fits
from domain.checks.whole_paper.board_names import board_names
from domain.checks.whole_paper.calibration import calibration
from domain.checks.whole_paper.contradictions import contradictions
from domain.checks.whole_paper.edition_named import edition_named
from domain.checks.whole_paper.failed_verifications import confirmed
from domain.checks.whole_paper.order_of_days import order_of_days
from domain.checks.whole_paper.recommended import recommended
from domain.checks.whole_paper.suspicious_patterns import made_up
from domain.job.finding import Finding
from domain.job.job import Job

Check = Callable[[Job], Iterator[Finding]]

CHECKS: tuple[Check, ...] = (
    edition_named,
    order_of_days,
    calibration,
    supply_fits,
    phase_sequence,
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
