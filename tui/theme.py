"""Colours and text styles. Every state has a sign and a word first; colour only comes on top."""

from rich.style import Style
from textual.theme import Theme

THEME = Theme(
    name="ohmfolio",
    primary="ansi_blue",
    secondary="ansi_cyan",
    warning="ansi_yellow",
    error="ansi_red",
    success="ansi_green",
    accent="ansi_cyan",
    foreground="ansi_default",
    background="ansi_default",
    surface="ansi_default",
    panel="ansi_default",
    boost="ansi_default",
    dark=True,
    ansi=True,
    variables={"ansi-background": "ansi_default", "ansi-foreground": "ansi_default"},
)
"""The terminal's own sixteen colours on its own background."""

PLAIN = Style()
HEAD = Style(bold=True)
QUIET = Style(dim=True)
LIT = Style(reverse=True)
CURSOR = LIT + Style(encircle=True)
"""What somebody has come to. Encircled for the driver: the terminal's own cursor stands there, for readers that follow it."""
COME_TO = Style(encircle=True)
"""The same where nothing is lit, such as the first line of a text."""
EDITED = Style(underline=True, bold=True)
ASKED = HEAD + Style(frame=True)
"""The beginning of a question that keys answer: the terminal's cursor stands there, whatever lies under the question."""
TYPED_AT = EDITED + Style(reverse=True, frame=True)
"""Where the next letter goes. The frame is for the driver: it shows the terminal's own cursor there, and nothing else."""
FAILS = Style(color="red", bold=True)
ASKS = Style(color="yellow")
GOOD = Style(color="green")

SIGN_FAILS = "✗"
SIGN_GOOD = "✓"
SIGN_ASKS = "?"
SIGN_SNAG = "!"
SIGN_GAP = "·"
SIGN_OPEN = "*"
SIGN_PUT_FORWARD = "="
"""What stands in a box was put forward or carried over, and nobody said yes to it yet."""
SIGN_BELOW = "↓"
SIGN_ABOVE = "↑"
"""A list goes on there."""
