"""The fewest keys for the text of a box, for hands that know what the program picks from."""

from itertools import accumulate

from tui.widgets.box_view import BoxView
from tui.widgets.open_entry import picked_from


def fewest(view: BoxView, text: str) -> str:
    """What has to be typed for a text: its beginning, a word of it or its number in the list, where one can be picked."""
    if text not in view.offers:
        return text
    begun = [beginning for word in (text, *text.split()) for beginning in accumulate(word.casefold())]
    numbers = [str(view.offers.index(text) + 1)]
    picks = [typed for typed in (*begun, *numbers) if picked_from(view, typed.strip()) == (text,)]
    return min(picks, key=len, default=text)
