"""A whole pack as data for the templates, with all that is expected of its pages."""

from datetime import UTC
from typing import Any

from domain.job.logo import Logo
from domain.sheets.sheet import ScheduleSheet, Sheet
from storage.paper.boxes import letters_to_a_line
from storage.paper.expected import Expectations, MarkKind
from storage.paper.imprint import Imprint
from storage.paper.measure import text_width
from storage.paper.page import SIDEWAYS, UPRIGHT, margins
from storage.paper.schedule_data import board_data
from storage.paper.seal import UNSEALED
from storage.paper.sheet_data import Data, text_sheet

_TITLE_SIZE, _GUTTER = 14.0, 18.0
"""Points of the title beside the letterhead, and of the room between them."""
_LOGO_WIDTH, _LOGO_HEIGHT, _TITLE_WIDTH = 100.0, 50.0, 214.0
"""Points that a logo may fill at the left, and that are left for the title then."""


def pack_data(sheets: tuple[Sheet, ...], imprint: Imprint) -> tuple[Data, Expectations]:
    """The pack for the templates, and what must come back from its places."""
    expected = Expectations()
    anchors = {(sheet.title, sheet.subtitle): f"sheet-{at}" for at, sheet in enumerate(sheets, start=1)}
    at = imprint.at.astimezone(UTC) if imprint.at else None
    data: Data = {
        "title": imprint.title,
        "paper": imprint.paper,
        "number": imprint.number,
        "author": imprint.author,
        "foot": imprint.foot,
        "draft": imprint.draft_mark,
        "at": at and {part: getattr(at, part) for part in ("year", "month", "day", "hour", "minute", "second")},
        "firm": _letterhead(imprint, expected),
        "logo": imprint.logo and _logo(imprint.logo),
        "seal": UNSEALED,
        "upright": margins(UPRIGHT),
        "sideways": margins(SIDEWAYS),
        "parts": _parts(sheets, expected, anchors),
    }
    return data, expected


def _letterhead(imprint: Imprint, expected: Expectations) -> list[Data]:
    beside = max(text_width(imprint.paper, _TITLE_SIZE, bold=True), text_width(imprint.number, _TITLE_SIZE, bold=True))
    if imprint.logo:
        # The title is parted into lines, so that the firm keeps its room.
        beside = _LOGO_WIDTH + _TITLE_WIDTH + _GUTTER
    width = UPRIGHT.frame_width - beside - _GUTTER
    return [
        {
            "mark": expected.add(MarkKind.BOX, text, "letterhead"),
            "text": text,
            "cut": letters_to_a_line(text, width, 9.0 if at else 16.0),
            "first": not at,
        }
        for at, text in enumerate(imprint.firm)
    ]


def _logo(logo: Logo) -> Data:
    """Its bytes as numbers: the templates read no base 64."""
    return {
        "format": logo.kind,
        "bytes": list(logo.content),
        "says": logo.says,
        "width": _LOGO_WIDTH,
        "height": _LOGO_HEIGHT,
        "title": _TITLE_WIDTH,
    }


def _parts(sheets: tuple[Sheet, ...], expected: Expectations, anchors: Any) -> list[Data]:
    """Sheets laid the same way, in their order; the schedules of a board together."""
    parts: list[Data] = []
    waiting = list(sheets)
    while waiting:
        sheet = waiting.pop(0)
        sideways = isinstance(sheet, ScheduleSheet)
        if isinstance(sheet, ScheduleSheet):
            board = [sheet]
            while waiting and isinstance(waiting[0], ScheduleSheet) and waiting[0].title != sheet.title:
                board.append(waiting.pop(0))  # pyright: ignore[reportArgumentType]
            made = board_data(tuple(board), expected, anchors)
        else:
            made = text_sheet(sheet, expected, anchors)
        if not parts or parts[-1]["sideways"] is not sideways:
            parts.append({"sideways": sideways, "sheets": []})
        parts[-1]["sheets"].append(made)
    return parts
