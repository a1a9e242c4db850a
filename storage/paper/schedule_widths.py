"""How wide the columns of a schedule are set, by their values and heads."""

from math import ceil
from typing import NamedTuple

from domain.sheets.sheet import ScheduleSheet, SheetColumn
from storage.paper.letters import is_cut_anywhere
from storage.paper.measure import text_width
from storage.paper.page import SIDEWAYS

SIZE = 8.0
BESIDE = 3.0
"""Points beside the text of a cell; as in templates/schedules.typ."""
HEAD_SIZE = 8.0
HEAD_LINE = 9.4
_OTHER = SIZE * 0.75
"""Points that a letter of Hebrew or Arabic is set in at most."""
_LEAST = 15.0
"""Points that a column keeps however short its values."""


class Widest(NamedTuple):
    """Points of the widest line of a column, and of its widest word that must not be parted."""

    line: float
    whole_word: float


def column_widths(sheet: ScheduleSheet, heading: float, widest: list[Widest]) -> list[float]:
    """Each column as wide as its longest ordinary value asks; what is left over goes to the columns of words."""
    width = SIDEWAYS.frame_width
    asked = [max(_LEAST, _asked(sheet, at, heading, widest[at])) for at in range(len(sheet.columns))]
    over = width - sum(asked)
    if over < 0:
        share = width / sum(asked)
        asked = [each * share for each in asked]
        over = 0
    words = [at for at, column in enumerate(sheet.columns) if not column.centred]
    for at in words:
        asked[at] += over * 0.6 * sheet.columns[at].width / sum(sheet.columns[each].width for each in words)
    spare = width - sum(asked)
    made = [round(each + spare / len(asked), 2) for each in asked]
    made[-1] = round(width - sum(made[:-1]), 2)
    return made


def widest_values(sheet: ScheduleSheet) -> list[Widest]:
    """Of each column."""
    return [
        Widest(
            max((text_width(line, SIZE, condensed=True) for text in texts for line in text.split("\n")), default=0.0),
            max(
                (len(word) * _OTHER for text in texts if not is_cut_anywhere(text) for word in text.split()),
                default=0.0,
            ),
        )
        for texts in ({row[at].shown for row in sheet.rows} for at in range(len(sheet.columns)))
    ]


def _asked(sheet: ScheduleSheet, at: int, heading: float, widest: Widest) -> float:
    """Points for the values of a column, none of them over its share in characters; and for its heading set upwards."""
    most = sheet.columns[at].width * SIZE * 0.62
    head = HEAD_LINE * lines_upwards(head_of(sheet.columns[at]), heading)
    return max(min(widest.line, most), widest.whole_word, min(head, 2 * HEAD_LINE)) + 2 * BESIDE + 0.5


def lines_upwards(head: str, most: float) -> int:
    """Lines of a heading set upwards that may be so many points long."""
    return ceil(text_width(head, HEAD_SIZE, bold=True, condensed=True) / most)


def head_of(column: SheetColumn) -> str:
    """Its heading, with its unit."""
    return f"{column.heading} ({column.unit})" if column.unit else column.heading
