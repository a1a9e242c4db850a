"""The checks, in the order of testing. Each is a plain function that yields findings."""

from collections.abc import Callable, Iterator

from domain.checks.dead_tests.continuity import continuity
from domain.checks.dead_tests.cpc_alone import cpc_alone
from domain.checks.dead_tests.insulation import insulation
from domain.checks.dead_tests.ring import ring
from domain.checks.dead_tests.run_length import run_length
from domain.checks.live_tests.earth_fault import earth_fault_loop
from domain.checks.live_tests.earth_fault_tt import earth_fault_loop_tt
from domain.checks.live_tests.loop_adds_up import loop_adds_up
from domain.checks.live_tests.rcd_time import rcd_time
from domain.checks.protection.additional_protection import additional_protection
from domain.checks.protection.behind_rcds import behind_rcds
from domain.checks.protection.breaking_capacity import breaking_capacity
from domain.checks.protection.disconnection_time import disconnection_time
from domain.checks.protection.lampholders import lampholders
from domain.checks.protection.non_standard_sizes import sizes_made
from domain.checks.protection.overload import overload
from domain.checks.protection.protective_conductors import protective_conductors
from domain.checks.protection.rcd_kind import rcd_kind
from domain.checks.protection.told_load import told_load
from domain.checks.protection.volt_drop import volt_drop
from domain.checks.shared.said_once import said_once
from domain.checks.supply.bonding import bonding, earthing_conductor
from domain.checks.supply.demand import demand
from domain.checks.supply.external_impedance import external_impedance
from domain.checks.supply.fault_current import fault_current_fits
from domain.checks.supply.nominal_values import nominal_values
from domain.checks.supply.phase_sequence import phase_sequence
from domain.checks.supply.sources import main_switch_poles, pitches, sources
from domain.checks.supply.sub_boards import sub_boards
from domain.checks.supply.supply_fits import supply_fits
from domain.checks.supply.three_phases import three_phase_current
from domain.checks.whole_paper.agreement import agreement
from domain.checks.whole_paper.board_names import board_names
from domain.checks.whole_paper.calibration import calibration
from domain.checks.whole_paper.circuit_words import circuit_words
from domain.checks.whole_paper.contradictions import contradictions
from domain.checks.whole_paper.edition_named import edition_named
from domain.checks.whole_paper.failed_verifications import confirmed
from domain.checks.whole_paper.intake_words import intake_words
from domain.checks.whole_paper.less_than_a_figure import less_than_a_figure
from domain.checks.whole_paper.minor_works_extent import minor_works_extent
from domain.checks.whole_paper.new_in_edition import new_in_edition
from domain.checks.whole_paper.order_of_days import order_of_days
from domain.checks.whole_paper.other_sources import other_sources
from domain.checks.whole_paper.recommended import recommended
from domain.checks.whole_paper.suspicious_patterns import made_up
from domain.checks.whole_paper.work_told import work_told
from domain.job.finding import Finding
from domain.job.job import Job

Check = Callable[[Job], Iterator[Finding]]

CHECKS: tuple[Check, ...] = (
    edition_named,
    order_of_days,
    calibration,
    nominal_values,
    supply_fits,
    demand,
    main_switch_poles,
    sources,
    pitches,
    phase_sequence,
    board_names,
    new_in_edition,
    other_sources,
    contradictions,
    intake_words,
    circuit_words,
    minor_works_extent,
    work_told,
    sizes_made,
    overload,
    told_load,
    lampholders,
    volt_drop,
    bonding,
    earthing_conductor,
    protective_conductors,
    continuity,
    ring,
    run_length,
    cpc_alone,
    insulation,
    confirmed,
    external_impedance,
    sub_boards,
    loop_adds_up,
    disconnection_time,
    earth_fault_loop,
    earth_fault_loop_tt,
    fault_current_fits,
    three_phase_current,
    breaking_capacity,
    additional_protection,
    behind_rcds,
    rcd_kind,
    rcd_time,
    less_than_a_figure,
    recommended,
    made_up,
)


def findings_of(job: Job) -> tuple[Finding, ...]:
    """Every finding of every check, in order of testing; last the marks of the inspection that the record denies.

    What is alike on circuits of a board is said once.
    """
    found = tuple(finding for check in CHECKS for finding in check(job))
    return (*said_once(job, found), *agreement(job, found))
