"""The fewest keys for the text of a box, for hands that know what the program picks from."""

from itertools import accumulate

from domain.job.box import BoxKind
from tui.widgets.box_view import BoxView
from tui.widgets.open_entry import OpenEntry

MARK_KEYS = {"N/A": "f10", "LIM": "f11", "Y": "f12"}
"""Keys that mark a box and go on."""


def fewest(view: BoxView, text: str) -> str:
    """What has to be typed for a text: its beginning, a word of it or its number in the list, where that picks it."""
    number = (str(view.offers.index(text) + 1),) if text in view.offers else ()
    begun = [beginning for word in (text, *text.split()) for beginning in accumulate(word.casefold())]
    picks = [typed for typed in (*begun, *number) if OpenEntry.typed_over(view, typed).text == text]
    if text.startswith("0.") and view.box.kind in {BoxKind.READING, BoxKind.NUMBER}:
        picks.append(text.removeprefix("0"))
    return min(picks, key=len, default=text)


def mark_key(view: BoxView, text: str) -> str:
    """The one key that puts a text into a box and goes on, where there is one."""
    return MARK_KEYS.get(text, "") if text in view.marks else ""
