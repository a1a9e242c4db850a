"""The one form of a Minor Electrical Installation Works Certificate, with its circuit and tests."""

from dataclasses import replace

from domain.job.box import boxes_of, shown_in
from domain.job.circuit import DETAIL_BOXES, Circuit
from domain.job.job import Job
from domain.place import Place
from domain.sheets.enclosed import enclosed_in
from domain.sheets.facts import NOT_APPLICABLE, Facts, rows_for
from domain.sheets.opening import client_of, identity_of, premises_of, subtitle_of
from domain.sheets.particulars import instruments_of
from domain.sheets.record import record_of
from domain.sheets.schedules import is_not_called_for, lacks_continuity
from domain.sheets.sheet import Block, Section, Sheet, SheetEntry, SheetGroup, TextSheet, ValueOrigin
from domain.sheets.signing import declarations_of

_DETAILS = (
    ("number", "description", "shape", "points", "length"),
    ("wiring", "method", "live_csa", "cpc_csa", "zs_permitted"),
    ("device_standard", "device_type", "rating", "breaking_capacity", "disconnection_time"),
    ("rcd_standard", "rcd_type", "rcd_idn", "rcd_rating", "afdd_standard"),
)
_RESULTS = (
    ("ring_r1", "ring_rn", "ring_r2", "r1_r2", "r2"),
    ("test_voltage", "ir_live", "ir_earth", "polarity", "zs"),
    ("rcd_time", "rcd_button", "afdd_button", "remarks"),
)


def minor_works_form(facts: Facts, others: tuple[Sheet, ...]) -> TextSheet:
    """Everything of minor works on one form."""
    # The parts are numbered as in the model form of BS 7671 Appendix 6, from memory.
    blocks: tuple[Block, ...] = (
        identity_of(facts),
        Section("1", "The minor works, for whom and where"),
        _joined(
            client_of(facts),
            premises_of(facts),
            facts.group(
                "",
                (("work.description", 3), "work.completed_on"),
                *facts.packed("work.departures", "work.exceptions", "work.risk_assessment"),
                *facts.packed("work.comments", "work.limitations", "work.attachments"),
            ),
        ),
        *_visit(facts.job),
        Section("2", "Earthing and bonding of the installation"),
        facts.group(
            "",
            ("supply.system", ("earthing.conductor_verified", 2), ("earthing.bonding_verified", 2)),
            (
                "earthing.bonded_water",
                "earthing.bonded_gas",
                "earthing.bonded_oil",
                "earthing.bonded_steel",
                "earthing.bonded_other",
            ),
        ),
        *_circuits(facts),
        instruments_of(facts),
        *_declared(facts.job),
        *enclosed_in(others, (), paper="certificate"),
    )
    return TextSheet(
        facts.job.profile.title,
        subtitle_of(facts),
        (*blocks, *facts.left_over(blocks, but=frozenset({"instruments", "firm"})), *record_of(facts)),
        opens=True,
    )


def _joined(*groups: SheetGroup) -> SheetGroup:
    """Boxes of one part without gaps between them: all of it has to stand on one page."""
    return SheetGroup("", tuple(row for group in groups for row in group.rows))


def _declared(job: Job) -> tuple[Block, ...]:
    """The one declaration, under the heading of its part alone."""
    return tuple(
        block for each in declarations_of(job) for block in (Section("5", each.heading), replace(each, heading=""))
    )


def _visit(job: Job) -> tuple[SheetGroup, ...]:
    named = job.chosen.visit
    if not named:
        return ()
    count = job.chosen.answers.circuits
    counted = f"One of {count} for this visit, one for each circuit"
    label = counted if isinstance(count, int) and count else "One of several for this visit"
    return (SheetGroup("Minor works of the same visit", ((SheetEntry(label, named),),)),)


def _circuits(facts: Facts) -> tuple[Block, ...]:
    groups: list[Block] = []
    for board in facts.job.boards:
        at = Place(section="boards", board=board.id)
        feeds = rows_for(facts, board, at, ("designation", "location", "kind", "zs", "spd_type", "spd_indicator"))
        if not board.circuits:
            groups += [Section("3", "The board"), SheetGroup("", feeds)]
        for circuit in board.circuits:
            details, results = _circuit(facts, circuit, at.model_copy(update={"circuit": circuit.id}))
            groups += [
                Section("3", "The board and the circuit"),
                replace(details, rows=(*feeds, *details.rows)),
                Section("4", "Test results"),
                results,
            ]
    return tuple(groups)


def _circuit(facts: Facts, circuit: Circuit, at: Place) -> tuple[SheetGroup, SheetGroup]:
    rows = rows_for(facts, circuit, at, *_DETAILS, *_RESULTS)
    mended = [tuple(_mended(facts, circuit, entry) for entry in row) for row in rows]
    details = tuple(row for row in mended if row[0].place and row[0].place.box in DETAIL_BOXES)
    results = tuple(row for row in mended if row not in details)
    return SheetGroup("", details), SheetGroup("", results)


def _mended(facts: Facts, circuit: Circuit, entry: SheetEntry) -> SheetEntry:
    """A box left empty, with what stands for it on paper."""
    if entry.place is None or shown_in(circuit, entry.place.box).strip():
        return entry
    name = entry.place.box
    box = boxes_of(Circuit)[name]
    if name == "zs_permitted" and (figure := facts.permitted_zs.get(circuit.id)):
        return SheetEntry(entry.label, figure, box.unit, ValueOrigin.OURS, entry.place)
    if is_not_called_for(circuit, name, box):
        return SheetEntry(entry.label, NOT_APPLICABLE, "", ValueOrigin.OURS, entry.place)
    if lacks_continuity(circuit, name):
        return SheetEntry(entry.label, "", box.unit, ValueOrigin.BLANK, entry.place)
    return entry
