"""What the screens on the last time list and say."""

from collections.abc import Iterator
from decimal import Decimal

from domain.dates import written
from domain.job.circuit import Circuit
from domain.job.job import Job
from domain.job.place_in_words import box_at, described
from domain.job.reading import Reading
from domain.log.last_time.comparing import CameBack, ReadingTrend, came_back
from domain.log.last_time.history import Earlier
from domain.log.last_time.matching import Match
from domain.log.last_time.trend import Point, chart
from domain.place import Place
from tui import theme
from tui.keys import key_name
from tui.widgets.pick_list import ListCell, ListRow
from tui.widgets.text_page import Paragraph

CIRCUIT = "circuit "
"""What the id of a circuit's row begins with."""
_CHART_WIDTH = 74
_POINTS_MAX = 5
_NOT_TAKEN = "-"


def heading(job: Job, earlier: Earlier | None, visits: tuple[Earlier, ...]) -> Paragraph:
    """Which papers lie side by side."""
    if earlier is None:
        return Paragraph(f"{job.number}: the last time", theme.HEAD)
    at = visits.index(earlier) + 1
    which = f"visit {at} of {len(visits)}" if len(visits) > 1 else "the only visit"
    return Paragraph(
        f"{job.number} beside {earlier.number} {earlier.job.form_set}, {day(earlier)} ({which})", theme.HEAD
    )


def day(earlier: Earlier) -> str:
    """When the visit was."""
    return written(earlier.on) if earlier.on else "without a date"


def rows_of(
    job: Job, earlier: Earlier, matches: tuple[Match, ...], changes: tuple[ReadingTrend, ...]
) -> Iterator[ListRow]:
    """What deserves a question, then every circuit with the one it was."""
    asked = [change for change in changes if change.asks]
    codes = came_back(job, earlier.job)
    if asked or codes:
        yield ListRow("questions", (ListCell("Deserves a question", theme.HEAD),), heading=True)
    for at, each in enumerate(codes):
        says = f"{each.now.code} came back: {each.now.finding}"
        yield ListRow(f"code {at}", (ListCell(theme.SIGN_ASKS, theme.ASKS, 1), ListCell(says)))
    for at, change in enumerate(asked):
        says = f"{described(job, change.place)}: {change.asks}"
        yield ListRow(f"ask {at}", (ListCell(theme.SIGN_ASKS, theme.ASKS, 1), ListCell(says)))
    yield ListRow("circuits", (ListCell("Now, and what it was", theme.HEAD),), heading=True)
    for match in matches:
        yield _circuit_row(job, earlier, match, asks=any(each.place.circuit == match.circuit for each in asked))


def about_change(job: Job, change: ReadingTrend, points: tuple[Point, ...]) -> Iterator[Paragraph]:
    """The question, the figure it rests on, and the trend."""
    source = f" [{change.source.cited}]" if change.source else ""
    yield Paragraph(f"{change.asks}{source}", theme.ASKS)
    box = box_at(job, change.place)
    yield from trend(points, box.unit if box else "")


def about_code(came: CameBack) -> Iterator[Paragraph]:
    """The observation then and now."""
    yield Paragraph(f"{came.now.code} {came.now.finding}", label="Now", label_width=6)
    yield Paragraph(f"{came.was.code} {came.was.finding}", label="Then", label_width=6)
    yield Paragraph("Was it never put right, or has it come again? Say so in the observation.", theme.QUIET)


def about_circuit(job: Job, earlier: Earlier, match: Match, changes: tuple[ReadingTrend, ...]) -> Iterator[Paragraph]:
    """Both circuits, and what changed in short."""
    yield Paragraph(_details(_circuit(job, match.circuit)), label="Now", label_width=6)
    if not match.was:
        yield Paragraph(f"no circuit; {key_name('last-match')} picks one", theme.QUIET, "Then", label_width=6)
        return
    yield Paragraph(_details(_circuit(earlier.job, match.was)), label="Then", label_width=6)
    said = [
        f"{box.heading} {then(each.was)} to {then(each.now)}"
        for each in changes
        if each.was != each.now and (box := box_at(job, each.place))
    ]
    yield Paragraph("   ".join(said) or "No reading differs.")


def reading_rows(job: Job, changes: tuple[ReadingTrend, ...]) -> Iterator[ListRow]:
    """One row a reading: then, now, and the difference."""
    yield ListRow("head", _cells("", "", "then", "now", "change", style=theme.QUIET), heading=True)
    for at, change in enumerate(changes):
        box = box_at(job, change.place)
        label = f"{box.label}{f' ({box.unit})' if box.unit else ''}" if box else change.place.box
        sign = theme.SIGN_ASKS if change.asks else ""
        yield ListRow(str(at), _cells(sign, label, then(change.was), then(change.now), _signed(change.difference)))


def trend(points: tuple[Point, ...], unit: str) -> Iterator[Paragraph]:
    """The newest points as a chart."""
    if unit:
        yield Paragraph(f"All visits, in {unit}:", theme.QUIET)
    for line in chart(points[-_POINTS_MAX:], _CHART_WIDTH):
        yield Paragraph(line)


def then(reading: Reading | None) -> str:
    """A reading, or the sign that none was taken."""
    return reading.shown if reading else _NOT_TAKEN


def owner(job: Job, place: Place) -> str:
    """The circuit, board or page a place is on, in words."""
    return described(job, place.model_copy(update={"box": ""}))


def _cells(sign: str, label: str, *values: str, style: theme.Style = theme.PLAIN) -> tuple[ListCell, ...]:
    return (ListCell(sign, theme.ASKS, 1), ListCell(label, style), *(ListCell(value, style, 10) for value in values))


def _signed(difference: Decimal | None) -> str:
    return "" if difference is None else "same" if not difference else f"{difference:+}"


def _circuit_row(job: Job, earlier: Earlier, match: Match, *, asks: bool) -> ListRow:
    sign, style = (theme.SIGN_GOOD, theme.GOOD) if match.confirmed else (theme.SIGN_GAP, theme.QUIET)
    was = _circuit(earlier.job, match.was)
    said = f"was {was.name}" if was else "was on no circuit"
    how = "confirmed" if match.confirmed else f"{match.likeness} % alike" if match.was else "not found"
    now = _circuit(job, match.circuit)
    return ListRow(
        f"{CIRCUIT}{match.circuit}",
        (
            ListCell(sign, style, 1),
            ListCell(theme.SIGN_ASKS if asks else "", theme.ASKS, 1),
            ListCell(now.name if now else "", theme.HEAD, 28),
            ListCell(said),
            ListCell(how, theme.QUIET, 11),
        ),
    )


def _circuit(job: Job, circuit_id: str) -> Circuit | None:
    return next((circuit for _, circuit in job.circuits() if circuit.id == circuit_id), None)


def _details(circuit: Circuit | None) -> str:
    if circuit is None:
        return ""
    device = " ".join(filter(None, (circuit.device_standard, circuit.device_type, circuit.rating.shown)))
    cable = f"{circuit.live_csa.shown or _NOT_TAKEN}/{circuit.cpc_csa.shown or _NOT_TAKEN} mm²"
    return ", ".join(filter(None, (circuit.name, circuit.shape, f"{device} A" if device else "", cable)))
