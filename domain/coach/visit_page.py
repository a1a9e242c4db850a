"""The visit sheet as a sheet of paper: one page, whatever the job holds."""

from dataclasses import dataclass

from domain.coach.summary_text import fitted
from domain.coach.visit_sheet import BOARDS_SHOWN, DANGERS, DEFERS, ORDER, TITLE, Visit, visit_parts
from domain.dates import written
from domain.sheets.sheet import Divider, Listing, Row, SheetCell, SheetColumn, SheetNote, TextSheet


@dataclass(frozen=True, slots=True)
class Room:
    """How much of a job one page is given."""

    letters: int
    """Of one text of the job."""
    most: int
    """Boards, and circuits that are asked about first."""
    joins: bool = False
    """What can hurt runs on in one row."""


ROOMS = (
    Room(400, BOARDS_SHOWN),
    Room(200, 6),
    Room(110, 4, joins=True),
    Room(70, 1, joins=True),
    Room(36, 1, joins=True),
)
"""Tried one after the other until all of it is one page."""
_LABEL = 60
_COLUMNS = (SheetColumn("What", 17, centred=False), SheetColumn("As the job tells it", 83, centred=False))


def visit_page(visit: Visit, room: Room) -> TextSheet:
    """The parts one under another; a text of the job that is too long is closed with …, our own words never are."""
    job = visit.job
    rows: list[Divider | Row] = []
    for part in visit_parts(visit, room.most):
        rows.append(Divider(part.heading))
        lines = part.lines
        if part.heading == DANGERS and room.joins:
            lines = (("Mind", " ".join(f"({number}) {text}" for number, (_, text) in enumerate(lines, start=1))),)
        is_ours = part.heading in {DANGERS, ORDER}
        rows += [
            (
                SheetCell(fitted(label, min(_LABEL, room.letters // 2))),
                SheetCell(text if is_ours else fitted(text, room.letters)),
            )
            for label, text in lines
        ]
    subtitle = f"{job.profile.title}; drawn on {written(visit.on)}"
    return TextSheet(TITLE, subtitle, (SheetNote(DEFERS), Listing("", _COLUMNS, tuple(rows))), opens=True)
