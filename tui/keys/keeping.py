"""Keys of keeping and carrying the log."""

from tui.keys.key import Key

KEYS: tuple[Key, ...] = (
    Key("keeping-do", "enter,ctrl+j", "do_row", "Do it", "Asks what is needed, then does what is under the cursor."),
    Key("keeping-again", "enter,ctrl+j", "open_again", "Open the log", "Opens the log that is there now."),
)
