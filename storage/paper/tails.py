"""Papers that would end in a few lines on a page of their own, set closer where that saves the page."""

from storage.paper.page import UPRIGHT
from storage.paper.sheet_data import Data
from storage.paper.typesetting import SetPages, set_pages

THIRD = UPRIGHT.top + UPRIGHT.frame_height / 3
"""Points from the top of a page that is filled for a third; `third` in templates/forms.typ asks the same of what may follow."""


def set_without_tail(data: Data, record: str) -> SetPages:
    """A pack set by its template. Whether less room around the lines saves a page is tried without the schedules first."""
    usual = set_pages(data, record)
    if not has_tail(usual):
        return usual
    texts, left_out = _texts_of(data)
    tried = set_pages(texts, "", closer=True)
    saves = tried.last - left_out < usual.last - _sideways_pages(data)
    return set_pages(data, record, closer=True) if saves else usual


def has_tail(pages: SetPages) -> bool:
    """A page of text is filled for less than a third."""
    lowest = {each.page: each.y for each in pages.marks if each.side == "foot"}
    return any(y < THIRD for y in lowest.values())


def _texts_of(data: Data) -> tuple[Data, int]:
    """The pack with the schedules that stand side by side left to a page that they are found on; and how many such pages."""
    parts = [_emptied(part) if part["sideways"] else part for part in data["parts"]]
    return data | {"parts": parts}, sum(part["sideways"] for part in parts)


def _emptied(part: Data) -> Data:
    schedules = [each | {"parts": []} for board in part["sheets"] for each in board["schedules"]]
    return {"sideways": True, "sheets": [{"together": True, "schedules": schedules}]}


def _sideways_pages(data: Data) -> int:
    boards = (board for part in data["parts"] if part["sideways"] for board in part["sheets"])
    return sum(1 if board["together"] else sum(len(each["parts"]) for each in board["schedules"]) for board in boards)
