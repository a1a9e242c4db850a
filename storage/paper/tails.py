"""Papers that would end in a few lines on a page of their own, set closer where that saves the page."""

from storage.paper.page import UPRIGHT
from storage.paper.sheet_data import Data
from storage.paper.typesetting import SetPages, set_pages

THIRD = UPRIGHT.top + UPRIGHT.frame_height / 3
"""Points from the top of a page that is filled for a third; `third` in templates/forms.typ asks the same of what may follow."""


def set_without_tail(data: Data, record: str) -> SetPages:
    """A pack set by its template."""
    usual = set_pages(data, record)
    if not has_tail(usual):
        return usual
    closer = set_pages(data, record, closer=True)
    return closer if closer.last < usual.last else usual


def has_tail(pages: SetPages) -> bool:
    """A page of text is filled for less than a third."""
    lowest = {each.page: each.y for each in pages.marks if each.side == "foot"}
    return any(y < THIRD for y in lowest.values())
