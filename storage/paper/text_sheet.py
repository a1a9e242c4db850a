"""A sheet of text set into pages."""

from collections.abc import Callable
from itertools import pairwise

from domain.sheets.sheet import (
    Banner,
    Block,
    Divider,
    Listing,
    Passage,
    SheetGroup,
    SheetNote,
    SheetSeal,
    Signing,
    TextSheet,
)
from storage.paper.paper_error import Overflow
from storage.paper.pieces import (
    banner_piece,
    group_piece,
    group_rows,
    heading,
    listing_piece,
    passage_piece,
    seal_piece,
    signing_piece,
    title_piece,
)
from storage.paper.press import Piece, Press
from storage.paper.style import UPRIGHT

_SHORT = UPRIGHT.frame_height / 4
"""Running text no higher than this is kept together."""

Render = Callable[[str], str]
"""Markdown of our own to HTML."""


def set_text_sheet(press: Press, sheet: TextSheet, render: Render) -> None:
    """Title, then block after block."""
    press.begin(sheet.title)
    press.keep(title_piece(sheet.title, sheet.subtitle, opens=sheet.opens))
    for block in sheet.blocks:
        _set_block(press, block, render)


def _set_block(press: Press, block: Block, render: Render) -> None:
    match block:
        case SheetGroup():
            _set_group(press, block)
        case Passage():
            _set_running(press, passage_piece(block))
        case SheetNote():
            _set_running(press, Piece(heading(block.heading) + render(block.text)))
        case Banner():
            press.keep(banner_piece(block))
        case Signing():
            press.keep(signing_piece(block))
        case SheetSeal():
            piece, press.seal = seal_piece(block)
            press.keep(piece)
        case Listing():
            _set_listing(press, block)


def _set_group(press: Press, group: SheetGroup) -> None:
    whole = group_piece(group)
    if press.measure(whole) <= UPRIGHT.frame_height:
        press.keep(whole)
        return
    for row in group_rows(group):
        press.keep(row)


def _set_running(press: Press, piece: Piece) -> None:
    if press.measure(piece) <= _SHORT:
        press.keep(piece)
    else:
        press.flow(piece)


def _set_listing(press: Press, listing: Listing) -> None:
    rows = listing.rows
    tops = press.row_tops(listing_piece(listing, rows, first=True), tuple(f"r{at}" for at in range(len(rows))))
    heights = [below - above for above, below in pairwise(tops)]
    head = tops[0]
    if any(head + height > UPRIGHT.frame_height for height in heights):
        raise Overflow(f"A row of {listing.heading or 'the inspection schedule'} is taller than a page")
    at = 0
    while at < len(rows):
        end = _rows_that_fit(listing, heights, at, press.room - head)
        if end == at:
            press.turn()
            end = _rows_that_fit(listing, heights, at, press.room - head)
        press.keep(listing_piece(listing, rows[at:end], first=at == 0))
        at = end


def _rows_that_fit(listing: Listing, heights: list[float], at: int, room: float) -> int:
    end = at
    while end < len(heights) and sum(heights[at : end + 1]) <= room - 1:
        end += 1
    # A divider at the foot of a page would stand apart from what it names.
    while end > at and end < len(heights) and isinstance(listing.rows[end - 1], Divider):
        end -= 1
    return end
