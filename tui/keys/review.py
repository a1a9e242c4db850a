"""Keys of everything found and everything still missing."""

from tui.keys.key import Key

KEYS: tuple[Key, ...] = (
    Key("visit", "enter,ctrl+j", "visit_row", "Go there", "Goes to the place of the line under the cursor."),
    Key(
        "raise-about", "r,R", "raise_about", "Raise it", "Raises a snag, or an observation on a report, from this line."
    ),
    Key("explain", "e,E", "explain", "Explain", "Gives the reason why a reading asked about is right; it is printed."),
)
