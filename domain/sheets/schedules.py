"""Circuit details and test results, one schedule of each to a board."""

from dataclasses import replace

from domain.job.board import Board
from domain.job.box import Box, boxes_of, shown_in
from domain.job.circuit import RESULT_BOXES, SCHEDULE_BOXES, USE_BOXES, Circuit
from domain.job.instrument import INSTRUMENTS, Instruments
from domain.place import Place
from domain.sheets.facts import Facts, rows_for
from domain.sheets.sheet import ScheduleSheet, SheetCell, SheetColumn, SheetEntry, ValueOrigin
from domain.sheets.signing import signature_for_results
from domain.value import says_nothing

DETAILS_TITLE = "Circuit details"
RESULTS_TITLE = "Test results"
USE_TITLE = "Use and design of circuits"
_ALWAYS = ("number", "description")
_GROUPS = {
    "Conductors": ("wiring", "method", "points", "live_csa", "cpc_csa", "length"),
    "Protective device": ("device_standard", "device_type", "rating", "breaking_capacity", "zs_permitted"),
    "RCD": ("rcd_standard", "rcd_type", "rcd_idn", "rcd_rating"),
    "Ring, end to end": ("ring_r1", "ring_rn", "ring_r2"),
    "Continuity": ("r1_r2", "r2"),
    "Insulation": ("test_voltage", "ir_live", "ir_earth"),
    "Loop": ("zs",),
    "RCD and AFDD": ("rcd_time", "rcd_button", "afdd_button"),
}
_GROUP_OF = {name: group for group, names in _GROUPS.items() for name in names}
_LEFT = frozenset(
    {"description", "device_standard", "rcd_standard", "remarks", "feeds", "runs", "open_pen", "switches"}
)
_DETAIL_HEADER = (
    ("designation", "location", "supplied_from", "phases", "main_switch"),
    ("device_standard", "device_type", "device_rating", "rcd_type", "rcd_idn", "rcd_rating", "spd_type"),
)
_RESULT_HEADER = (
    ("designation", "location", "vulnerable"),
    ("zs", "ipf", "polarity", "phase_sequence", "rcd_time", "spd_indicator"),
)
_TESTED = ("tested_by", "tested_on")
_SHARED_HEADER = frozenset({"designation", "location"})
_HEADS = {
    "shape": "Ring, radial or spare",
    "wiring": "Type of wiring",
    "method": "Reference method",
    "points": "Number of points served",
    "live_csa": "Live conductors",
    "cpc_csa": "Protective conductor (cpc)",
    "length": "Length of run",
    "device_standard": "BS (EN)",
    "device_type": "Type",
    "rating": "Rating",
    "breaking_capacity": "Breaking capacity",
    "zs_permitted": "Maximum permitted Zs",
    "disconnection_time": "Max disconnection time",
    "rcd_standard": "BS (EN)",
    "rcd_type": "Type",
    "rcd_idn": "IΔn",
    "rcd_rating": "Rating",
    "afdd_standard": "AFDD, BS (EN)",
    "ring_r1": "r1, line",
    "ring_rn": "rn, neutral",
    "ring_r2": "r2, cpc",
    "test_voltage": "Test voltage",
    "ir_live": "Live to live",
    "ir_earth": "Live to earth",
    "polarity": "Polarity confirmed",
    "zs": "Maximum measured Zs",
    "rcd_time": "RCD disconnection time",
    "rcd_button": "RCD test button works",
    "afdd_button": "AFDD test button works",
}
"""Column heads in full words; the others go by the short names of their boxes."""
_KEY = "– nothing entered · N/A not applicable · heavy frame and cross: outside its limit"
_ANSWERED = "(1): observation that answers it"
WIRING = (
    "Wiring: A sheathed cable · B metal conduit · C plastic conduit · D metal trunking · E plastic trunking · "
    "F SWA thermoplastic · G SWA thermosetting · H mineral insulated · O other, see remarks"
)
_MAX_ZS = "Maximum Zs: by design or table; a cold reading stays below it by the usual factor"


def schedules_of(facts: Facts) -> tuple[ScheduleSheet, ...]:
    """Details, results and what more is known of the circuits, board after board."""
    return tuple(
        sheet
        for board in facts.job.boards
        for sheet in (_details(facts, board), _results(facts, board), *_uses(facts, board))
    )


def _details(facts: Facts, board: Board) -> ScheduleSheet:
    names = tuple(name for name in SCHEDULE_BOXES if boxes_of(Circuit)[name].is_asked(facts.job.form_set))
    shown_later = {*_TESTED, *(name for row in _RESULT_HEADER for name in row)} - _SHARED_HEADER
    # The key stands once, with the first board.
    key = (WIRING, f"{_MAX_ZS} · {_key(facts)}") if board is facts.job.boards[0] else ()
    return _schedule(facts, board, DETAILS_TITLE, names, _DETAIL_HEADER, shown_later, key)


def _results(facts: Facts, board: Board) -> ScheduleSheet:
    results = tuple(name for name in RESULT_BOXES if boxes_of(Circuit)[name].is_asked(facts.job.form_set))
    shown_before = set(boxes_of(Board)) - {name for row in _RESULT_HEADER for name in row}
    made = _schedule(facts, board, RESULTS_TITLE, (*_ALWAYS, *results), _RESULT_HEADER, shown_before, ())
    return replace(made, footer=_tested(facts, board))


def _key(facts: Facts) -> str:
    return f"{_KEY} · {_ANSWERED}" if facts.job.profile.takes_observations else _KEY


def _tested(facts: Facts, board: Board) -> tuple[tuple[SheetEntry, ...], ...]:
    """With what, by whom and when the results were taken, and the signature that stands for them."""
    at = Place(section="boards", board=board.id)
    by, on = (facts.entry(board, at.model_copy(update={"box": name})) for name in _TESTED)
    return ((_instruments(facts),), (by, signature_for_results(facts.job), on))


def _instruments(facts: Facts) -> SheetEntry:
    held = facts.job.instruments
    named = [
        f"{boxes_of(Instruments)[box].label} {getattr(held, box)}"
        for box in INSTRUMENTS
        if not says_nothing(getattr(held, box))
    ]
    label = "Test instruments, by serial number"
    return SheetEntry(label, "; ".join(named)) if named else SheetEntry(label, "", origin=ValueOrigin.BLANK)


def _uses(facts: Facts, board: Board) -> tuple[ScheduleSheet, ...]:
    """What the usual columns have no room for; only the circuits and boxes of which something is filled in."""
    names = tuple(name for name in USE_BOXES if any(shown_in(each, name).strip() for each in board.circuits))
    told = tuple(each for each in board.circuits if any(shown_in(each, name).strip() for name in names))
    if not told:
        return ()
    at = Place(section="boards", board=board.id)
    rows = rows_for(facts, board, at, tuple(sorted(_SHARED_HEADER)))
    return (
        ScheduleSheet(
            title=USE_TITLE,
            subtitle=f"Board {board.name}",
            header=rows,
            columns=tuple(_column(name) for name in (*_ALWAYS, *names)),
            rows=tuple(
                tuple(
                    _cell(facts, each, name, of)
                    for of in (at.model_copy(update={"circuit": each.id}),)
                    for name in (*_ALWAYS, *names)
                )
                for each in told
            ),
            notes=(_KEY,),
        ),
    )


def _schedule(
    facts: Facts,
    board: Board,
    title: str,
    names: tuple[str, ...],
    header: tuple[tuple[str, ...], ...],
    elsewhere: set[str],
    notes: tuple[str, ...],
) -> ScheduleSheet:
    at = Place(section="boards", board=board.id)
    rows = rows_for(facts, board, at, *header)
    here = (tuple(entry for entry in row if entry.place and entry.place.box not in elsewhere) for row in rows)
    return ScheduleSheet(
        title=title,
        subtitle=f"Board {board.name}",
        header=tuple(row for row in here if row),
        columns=tuple(_column(name) for name in names),
        rows=tuple(
            tuple(
                _cell(facts, circuit, name, of)
                for of in (at.model_copy(update={"circuit": circuit.id}),)
                for name in names
            )
            for circuit in board.circuits
        ),
        notes=notes,
    )


def _column(name: str) -> SheetColumn:
    box = boxes_of(Circuit)[name]
    return SheetColumn(
        _HEADS.get(name, box.heading), box.width, _GROUP_OF.get(name, ""), box.unit, centred=name not in _LEFT
    )


def _cell(facts: Facts, circuit: Circuit, name: str, of: Place) -> SheetCell:
    """A box of the circuit at `of`."""
    shown = shown_in(circuit, name)
    if shown.strip():
        if facts.fails_within(of) and facts.fails(place := of.model_copy(update={"box": name})):
            return SheetCell(shown, ValueOrigin.FAILS, facts.answered_beside(place))
        return SheetCell(shown)
    box = boxes_of(Circuit)[name]
    if name == "zs_permitted" and (figure := facts.permitted_zs.get(circuit.id)):
        return SheetCell(figure, ValueOrigin.OURS)
    if box.is_required(facts.job.form_set, circuit) or lacks_continuity(circuit, name):
        return SheetCell("", ValueOrigin.BLANK)
    if is_not_called_for(circuit, name, box):
        return SheetCell("N/A", ValueOrigin.OURS)
    return SheetCell("–", ValueOrigin.OURS)


def lacks_continuity(circuit: Circuit, name: str) -> bool:
    """One of R1+R2 and R2 is wanted of a circuit in use, and neither is there."""
    return name in {"r1_r2", "r2"} and not (circuit.is_spare or circuit.r1_r2.is_given or circuit.r2.is_given)


def is_not_called_for(circuit: Circuit, name: str, box: Box) -> bool:
    """The circuit's own details say that this box does not apply: ring readings of a radial, an RCD that is not there."""
    if box.when is None or box.when(circuit) or not box.not_applicable or not box.required or circuit.is_spare:
        return False
    decided_by = circuit.rcd_standard if name.startswith("rcd_") else circuit.shape
    return bool(decided_by.strip())
