"""Labelled boxes put into rows on a grid of twelve parts, each as wide as its text asks where that can be had.

Parts are halved where that spares a row, and only there: edges that stand beneath each other keep a page calm.
"""

from math import ceil
from typing import Any

from domain.sheets.sheet import SheetEntry, ValueOrigin
from storage.paper.expected import Expectations
from storage.paper.letters import is_cut_anywhere
from storage.paper.measure import longest_word, text_width
from storage.paper.page import Area

PARTS = 24
_WHOLE, _HALF = 2, 1
LABEL_SIZE, VALUE_SIZE = 8.0, 9.5
_INSET = 5.0
"""Points on either side of a box's text."""
_NARROW, _WIDE = 4, 8
"""Half parts that a box keeps however short its text, and beneath which no long text is squeezed."""
_CROWDED = 28
"""Half parts asked for by boxes of one row, up to which the longest of them go over two lines rather than all over two rows."""
_LABEL_MOST = 0.7
"""Of a box's width, for its label to leave room for a value on its line."""
_FOR_BLANKS = 40.0
"""Points that a box to be filled in leaves for the hand."""

CROSS = "✗ "
_Entries = tuple[SheetEntry, ...]


def box_rows(
    rows: tuple[tuple[SheetEntry, ...], ...],
    area: Area,
    expected: Expectations,
    *,
    size: float = VALUE_SIZE,
    by_hand: bool = True,
) -> list[dict[str, Any]]:
    """The rows for the template, each with its mark and its boxes, as wide as the frame; each box with its share of the twelve parts.

    A signature still to come has the room that a hand needs, unless nobody signs `by_hand` there.
    """
    part = area.frame_width / PARTS
    made: list[dict[str, Any]] = []
    for row in _put_into_rows(rows, part, size):
        mark, left, boxes = expected.mark(), area.left, list[dict[str, Any]]()
        for entry, span in zip(row, _spans(row, part, size), strict=True):
            value = shown_value(entry)
            expected.add_cell(mark, f"{entry.label}: {value}", entry.label, (left, left + span * part))
            boxes.append(_box(entry, value, span, span * part, size) | ({} if by_hand else {"hand": False}))
            left += span * part
        made.append({"mark": mark, "boxes": boxes})
    return made


def rows_of_boxes(rows: tuple[tuple[SheetEntry, ...], ...], area: Area) -> int:
    """How many rows the boxes take."""
    return len(_put_into_rows(rows, area.frame_width / PARTS, VALUE_SIZE))


def shown_value(entry: SheetEntry) -> str:
    """The value with its unit, and the cross of one outside its limit."""
    value = f"{entry.value} {entry.unit}" if entry.unit and entry.value else entry.value or entry.unit
    return CROSS + value.removeprefix(CROSS.strip()).lstrip() if entry.origin is ValueOrigin.FAILS else value


def _box(entry: SheetEntry, value: str, span: int, width: float, size: float) -> dict[str, Any]:
    return {
        "label": entry.label,
        "value": value,
        "origin": entry.origin.name.lower(),
        "span": span,
        "cut": letters_to_a_line(value, width - 2 * _INSET, size),
        "hand": entry.origin is ValueOrigin.BLANK and entry.label == "Signature",
    }


def letters_to_a_line(text: str, width: float, size: float, *, condensed: bool = False) -> int:
    """Words of more letters than this are broken anywhere; 0 where none has to be."""
    if len(text) * size <= width or not is_cut_anywhere(text) or longest_word(text, size, condensed=condensed) <= width:
        return 0
    return max(1, int(width / size))


def _put_into_rows(rows: tuple[_Entries, ...], part: float, size: float) -> list[_Entries]:
    """Rows as they are asked for; those with no room for all their boxes run on into each other."""
    made: list[_Entries] = []
    running: list[SheetEntry] = []
    for row in rows:
        most = _CROWDED if _may_crowd(row, part) else PARTS
        if _asked(row, part, size) <= most or _asked(row, part, size, _HALF) <= PARTS:
            made += [*_filled(running, part, size), row]
            running = []
        else:
            running += row
    return made + _filled(running, part, size)


def _may_crowd(row: _Entries, part: float) -> bool:
    """Few boxes, none of them waiting for a hand, whose labels keep to a line in an even share."""
    share = part * PARTS / len(row) - 2 * _INSET
    return len(row) <= PARTS // _WIDE and all(
        entry.origin is not ValueOrigin.BLANK and text_width(f"{entry.label}: ", LABEL_SIZE) < share * _LABEL_MOST
        for entry in row
    )


def _filled(running: list[SheetEntry], part: float, size: float) -> list[_Entries]:
    made: list[_Entries] = []
    for entry in running:
        if made and _asked((*made[-1], entry), part, size) <= PARTS:
            made[-1] = (*made[-1], entry)
        else:
            made.append((entry,))
    return made


def _asked(row: _Entries, part: float, size: float, step: int = _WHOLE) -> int:
    return sum(_need(entry, part, size, step) for entry in row)


def _spans(row: tuple[SheetEntry, ...], part: float, size: float) -> list[int]:
    step = _HALF if _asked(row, part, size, _HALF) <= PARTS < _asked(row, part, size) else _WHOLE
    spans = [_need(entry, part, size, step) for entry in row]
    even = PARTS // len(row)
    if PARTS % (step * len(row)) == 0 and max(spans) <= even and len({entry.weight for entry in row}) == 1:
        return [even] * len(row)
    while sum(spans) > PARTS:
        widest = max(range(len(row)), key=lambda at: spans[at])
        spans[widest] -= step
    # What is over goes to each in turn, the weightiest first.
    order = sorted(range(len(row)), key=lambda at: -row[at].weight)
    for turn in range((PARTS - sum(spans)) // step):
        spans[order[turn % len(order)]] += step
    return spans


def _need(entry: SheetEntry, part: float, size: float, step: int) -> int:
    value = shown_value(entry)
    wide = text_width(f"{entry.label}: ", LABEL_SIZE if size <= VALUE_SIZE else size)
    wide += max(text_width(line, size) for line in value.split("\n")) if value.strip() else 0
    if entry.origin is ValueOrigin.BLANK:
        wide += _FOR_BLANKS
    return min(PARTS, max(_NARROW, step * ceil((wide + 2 * _INSET + 1) / (step * part))))
