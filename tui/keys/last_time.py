"""Keys of what was found the last time."""

from tui.keys.key import Key

KEYS: tuple[Key, ...] = (
    Key("last-open", "enter,ctrl+j", "open", "Readings", "Shows every reading then and now, with its trend."),
    Key("last-confirm", "y,Y", "confirm", "Same", "Says that the two circuits side by side are the same."),
    Key("last-all", "a,A", "confirm_all", "All the same", "Says so of every pair shown, after a question.", foot=False),
    Key("last-match", "m,M", "match", "Another", "Picks the circuit it was, or none, where another is shown."),
    Key(
        "last-carry",
        "c,C",
        "carry_over",
        "Carry over",
        "Takes supply, boards, wiring and devices over into this job, after a question; never a reading.",
    ),
    Key("last-older", "right,o,O", "turn(1)", "Older visit", "Goes to the visit before that."),
    Key("last-newer", "left,n,N", "turn(-1)", "Newer visit", "Goes to the visit after that.", foot=False),
    Key("last-link", "l,L", "link", "Link", "Lays an earlier paper beside this job by its number."),
    Key("match-take", "enter,ctrl+j", "take", "It was this", "Takes the circuit under the cursor as the one it was."),
)
