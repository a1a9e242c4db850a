"""Types of RCD: AC where direct current may flow, and those that suit charge points."""

import re
from collections.abc import Iterator
from typing import NamedTuple

from domain.checks.shared.circuits_in_use import Way, board_place, numbers_of
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.part_by_part import way_by_way
from domain.checks.shared.phrases import phrase
from domain.checks.shared.rcds import Rcd, board_rcd, switch_rcd
from domain.checks.shared.severities import shortfall
from domain.checks.shared.uses import use_of
from domain.figures.limits.device import RCBO, standard_in
from domain.figures.limits.loader import table
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.place import Place
from domain.regulation import regulation
from domain.source import Source

_found = FindingFactory("rcd-kind")
_DRIVES = re.compile(r"\bheat pump|\binverter|\bvariable[- ]speed|\bvsd\b|\bdrives?\b|\bair[- ]?con", re.IGNORECASE)
"""Fixed equipment known for the direct current it may let through."""
_CHARGING = "RCD for a charging point"


def rcd_kind(job: Job) -> Iterator[Finding]:
    """New circuits whose own RCD is of type AC are asked about one by one; others are noted once for each board."""
    older: dict[str, list[Way]] = {}
    seen: set[str] = set()
    for way, said in _of_ways(job):
        if isinstance(said, _Older):
            older.setdefault(way.board.id, []).append(way)
        elif isinstance(said, _Before):
            if said.rcd not in seen:
                seen.add(said.rcd)
                yield said.finding
        else:
            yield said
    yield from _delayed_yet_sensitive(job)
    for ways in older.values():
        yield _noted(job, ways, _source(job))


class _Older(NamedTuple):
    """A circuit on an RCD of type AC that is not new; said once for each board."""


class _Before(NamedTuple):
    """Direct current blinds an RCD of type AC wherever in the path it stands; said once for each."""

    rcd: str
    finding: Finding


def _of_a_way(job: Job, way: Way) -> Iterator[Finding | _Older | _Before]:
    circuit, source = way.circuit, _source(job)
    use = use_of(circuit)
    if use.vehicle or use.source:
        yield from _before_it(job, way)
    if not circuit.has_rcd:
        return
    is_ac = is_alternating_only(circuit.rcd_type)
    if use.vehicle:
        yield from _charging(job, way, is_ac=is_ac)
    elif use.source and is_ac:
        yield _found(job, way.at("rcd_type"), shortfall(job), "source-on-ac", source=source)
    elif is_ac and _is_new(job, way) and _DRIVES.search(circuit.description):
        yield _found(job, way.at("rcd_type"), Severity.ASK, "drive-on-ac", source=source)
    elif is_ac and _is_new(job, way) and (use.sockets or use.lights):
        usual = phrase("type-for-usual")
        yield _found(job, way.at("rcd_type"), Severity.ASK, "new-circuit", limit=usual, source=source)
    elif is_ac:
        yield _Older()


_of_ways = way_by_way(_of_a_way)


def _source(job: Job) -> Source:
    return table("rcd_types", job.edition).source


def _delayed_yet_sensitive(job: Job) -> Iterator[Finding]:
    """An RCD that waits is made for more than the residual current that protects people."""
    most = table("rcd_required", job.edition).limit("idn_up_to", "411.3.3", "socket-outlets up to 32 A")
    assert most
    switch = switch_rcd(job)
    headers = [(board_rcd(board), board_place(board, "rcd_idn")) for board in job.boards]
    for rcd, place in ((switch, Place(section="main_switch", box="rcd_idn")), *headers):
        if rcd and rcd.is_delayed and rcd.idn.figure is not None and 0 < rcd.idn.figure <= most.value:
            typed, source = {"rcd_type": rcd.kind.strip()}, regulation("RCDs with a delay", job.edition)
            yield _found(
                job,
                place,
                Severity.ASK,
                "delayed-yet-sensitive",
                source=source,
                typed=typed,
                rcd=rcd.named,
                idn=rcd.idn,
            )


def _before_it(job: Job, way: Way) -> Iterator[_Before]:
    for rcd in way.rcds_at_board:
        if not is_alternating_only(rcd.kind):
            continue
        said = {"rcd": rcd.named, "description": way.circuit.feeds.strip() or way.circuit.description.strip()}
        typed = {"rcd_type": rcd.kind.strip()} | said
        source = regulation("type of an RCD", job.edition)
        place = _place_of(job, way, rcd)
        found = _found(
            job, place, shortfall(job), "ac-before-it", source=source, measured=rcd.kind.strip(), typed=typed, said=said
        )
        yield _Before(rcd.named, found)


def _place_of(job: Job, way: Way, rcd: Rcd) -> Place:
    if rcd == board_rcd(way.board):
        return board_place(way.board, "rcd_type")
    return Place(section="main_switch", box="rcd_type") if rcd == switch_rcd(job) else way.at("rcd_type")


def is_alternating_only(rcd_type: str) -> bool:
    """Type AC, time-delayed or not."""
    return "AC" in rcd_type.upper().replace("-", " ").split()


def _is_new(job: Job, way: Way) -> bool:
    """On an installation certificate an RCBO belongs to the circuit, and so to the new work."""
    own = standard_in(way.circuit.rcd_standard) == RCBO
    return job.profile.covers_new_work and own


def _charging(job: Job, way: Way, *, is_ac: bool) -> Iterator[Finding]:
    source = regulation(_CHARGING, job.edition)
    kind, place, suits = way.circuit.rcd_type.strip(), way.at("rcd_type"), phrase("type-for-charging")
    if is_ac:
        yield _found(job, place, shortfall(job), "charging-on-ac", limit=suits, source=source)
    elif kind.upper() in {"A", "F"}:
        yield _found(job, place, Severity.NOTE, "charging-needs-detection", limit=suits, source=source, type=kind)


def _noted(job: Job, ways: list[Way], source: Source) -> Finding:
    case = "older" if len(ways) == 1 else "older-on-several"
    said = {"board": ways[0].board.name, "circuits": numbers_of(ways)}
    usual = phrase("type-for-usual")
    return _found(job, ways[0].at("rcd_type"), Severity.NOTE, case, limit=usual, source=source, said=said)
