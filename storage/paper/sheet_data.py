"""Sheets of text as data for the templates: plain values with their marks, never markup."""

from typing import Any

from domain.sheets.sheet import (
    Banner,
    Contents,
    Divider,
    Listing,
    Passage,
    Row,
    Section,
    SheetCell,
    SheetColumn,
    SheetGroup,
    SheetNote,
    SheetPicture,
    SheetPictures,
    SheetSeal,
    Signing,
    TextSheet,
    Tone,
    ValueOrigin,
    WordBlock,
)
from storage.paper.boxes import CROSS, VALUE_SIZE, box_rows, letters_to_a_line
from storage.paper.expected import Expectations, MarkKind
from storage.paper.letters import runs_leftwards
from storage.paper.page import UPRIGHT
from storage.paper.words import line, paragraphs

Data = dict[str, Any]
"""One value as JSON."""

CELL_INSET = 4.0
"""Points on either side of a cell's text."""
_LIST_SIZE, _LARGE = 9.0, 12.0
_MARKS = {Tone.GOOD: "✓ ", Tone.BAD: CROSS, Tone.OPEN: ""}


def text_sheet(sheet: TextSheet, expected: Expectations, anchors: dict[tuple[str, str], str]) -> Data:
    """A sheet of text; `anchors` are the names of all sheets by title and subtitle."""
    expected.begin(sheet.title)
    return {
        "kind": "text",
        "title": sheet.title,
        "subtitle": sheet.subtitle,
        "anchor": anchors[sheet.title, sheet.subtitle],
        "opens": sheet.opens,
        "large": sheet.large,
        "apart": sheet.apart,
        "whole": any(isinstance(block, SheetSeal) for block in sheet.blocks),
        "blocks": _blocks(sheet, expected, anchors),
    }


def _blocks(sheet: TextSheet, expected: Expectations, anchors: dict[tuple[str, str], str]) -> list[Data]:
    """Each block with the level of its heading: beneath a section one deeper, so that no level is passed over."""
    level, made = 2, list[Data]()
    for block in sheet.blocks:
        if isinstance(block, SheetPictures):
            made.append({"kind": "pictures", "pictures": [_picture(each, expected) for each in block.pictures]})
        else:
            made.append(_block(block, expected, anchors, large=sheet.large) | {"level": level})
        if isinstance(block, Section):
            level = 3
    return made


def _block(block: WordBlock, expected: Expectations, anchors: dict[tuple[str, str], str], *, large: bool) -> Data:
    match block:
        case Section():
            return {"kind": "section", "letter": block.letter, "heading": block.heading}
        case SheetNote():
            return {"kind": "words", "heading": block.heading, "words": paragraphs(block.text)}
        case SheetSeal():
            return {"kind": "seal", "heading": block.heading, "label": block.label}
        case Contents():
            listed = [{"named": _name(title, sub), "anchor": anchors[title, sub]} for title, sub in block.sheets]
            return {"kind": "contents", "heading": block.heading, "note": line(block.note), "sheets": listed}
        case Passage():
            return _passage(block, expected)
        case Banner():
            return _banner(block, expected)
        case Listing():
            return _listing(block, expected, size=_LARGE if large else _LIST_SIZE)
        case SheetGroup():
            rows = box_rows(block.rows, UPRIGHT, expected, size=_LARGE if large else VALUE_SIZE)
            return {"kind": "boxes", "heading": block.heading, "note": line(block.note), "rows": rows}
        case Signing():
            rows = box_rows(block.entries, UPRIGHT, expected)
            return {"kind": "signing", "heading": block.heading, "declares": block.declares, "rows": rows}


def _passage(passage: Passage, expected: Expectations) -> Data:
    return {
        "kind": "passage",
        "heading": f"Entry {passage.number}: {passage.heading}",
        "text": passage.text,
        "mark": expected.add(MarkKind.FLOW, passage.text, f"continuation sheet, entry {passage.number}"),
        "cut": letters_to_a_line(passage.text, UPRIGHT.frame_width, VALUE_SIZE),
    }


def _banner(banner: Banner, expected: Expectations) -> Data:
    says = _MARKS[banner.tone] + banner.says
    return {
        "kind": "banner",
        "label": banner.label,
        "says": says,
        "beneath": banner.beneath,
        "bad": banner.tone is Tone.BAD,
        "day": banner.is_day,
        "mark": expected.add(MarkKind.BOX, says, banner.label),
    }


def _picture(each: SheetPicture, expected: Expectations) -> Data:
    """Its bytes as numbers: the templates read no base 64."""
    return {
        "label": each.label,
        "caption": each.caption,
        "instead": each.instead,
        "jpeg": list(each.jpeg),
        "mark": expected.add(MarkKind.BOX, each.caption, each.label),
        "cut": letters_to_a_line(each.caption, UPRIGHT.frame_width / 2, _LIST_SIZE),
    }


def _name(title: str, subtitle: str) -> str:
    """A sheet as the contents name it; of several under one title, with what tells them apart."""
    return f"{title}, {subtitle}" if subtitle.startswith("Board ") else title


def _listing(listing: Listing, expected: Expectations, *, size: float) -> Data:
    widths = shares([column.width for column in listing.columns], UPRIGHT.frame_width)
    across = edges(widths, UPRIGHT.left)
    return {
        "kind": "listing",
        "heading": listing.heading,
        "note": line(listing.note),
        "widths": widths,
        "columns": [_column(column) for column in listing.columns],
        "rows": [_row(listing, row, widths, across, expected, size) for row in listing.rows],
        "size": size,
    }


def _column(column: SheetColumn) -> Data:
    return {"heading": column.heading, "centred": column.centred}


def _row(
    listing: Listing,
    row: Row | Divider,
    widths: list[float],
    across: list[tuple[float, float]],
    expected: Expectations,
    size: float,
) -> Data:
    mark = expected.mark()
    named = listing.heading or "list"
    if isinstance(row, Divider):
        expected.add_cell(mark, row.text, named, (across[0][0], across[-1][1]))
        return {"mark": mark, "divider": row.text}
    cells = [cell_data(cell, wide - 2 * CELL_INSET, size) for cell, wide in zip(row, widths, strict=True)]
    for cell, column, where in zip(cells, listing.columns, across, strict=True):
        expected.add_cell(mark, text_of(cell), f"{named}, {row[0].text[:20]}, {column.heading}", where)
    return {"mark": mark, "cells": cells}


def cell_data(cell: SheetCell, width: float, size: float, *, condensed: bool = False) -> Data | str:
    """A cell of a table, with what its text needs to stay within its width; most are nothing but their text."""
    text = CROSS + cell.shown if cell.origin is ValueOrigin.FAILS and cell.text.strip() else cell.shown
    made: Data = {"text": text}
    if cell.origin in {ValueOrigin.FAILS, ValueOrigin.BLANK}:
        made["origin"] = cell.origin.name.lower()
    if condensed and not text.isascii() and any(map(runs_leftwards, text)):
        made["leftwards"] = True
    if cut := letters_to_a_line(text, width, size, condensed=condensed):
        made["cut"] = cut
    return made if len(made) > 1 or "\n" in text else text


def text_of(cell: Data | str) -> str:
    """What stands in a cell."""
    return cell if isinstance(cell, str) else cell["text"]


def shares(weights: list[int], width: float) -> list[float]:
    """The width shared out by weight, in points to the hundredth; the last takes what is left."""
    whole = sum(weights)
    widths = [round(width * weight / whole, 2) for weight in weights]
    widths[-1] = round(width - sum(widths[:-1]), 2)
    return widths


def edges(widths: list[float], left: float) -> list[tuple[float, float]]:
    """Left and right edge of each column."""
    made: list[tuple[float, float]] = []
    for width in widths:
        made.append((left, left + width))
        left += width
    return made
