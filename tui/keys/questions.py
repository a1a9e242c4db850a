"""Keys of questions, lists and pages of text."""

from tui.keys.key import Key

KEYS: tuple[Key, ...] = (
    Key("yes", "y,Y,enter,ctrl+j", "answer(True)", "Yes", "Says yes to the question."),
    Key("no", "n,N,escape", "answer(False)", "No", "Says no; everything stays as it was."),
    Key(
        "accept-line", "enter,ctrl+j", "accept_line", "Next", "Takes the line and goes on; on the last line it is done."
    ),
    Key("accept-one", "enter,ctrl+j", "accept_line", "Keep it", "Takes the line as typed."),
    Key("accept-all", "ctrl+o", "accept_all", "Done", "Takes all lines as they stand."),
    Key(
        "form-take",
        "ctrl+y",
        "take_known",
        "Take known",
        "Takes the words of the first kind listed beside the lines, in place of what was typed; the code stays yours.",
    ),
    Key("line-down", "tab,down", "line(1)", "Next line", "Goes to the next line.", foot=False),
    Key("line-up", "shift+tab,up", "line(-1)", "Line before", "Goes to the line before.", foot=False),
    Key("let-be", "escape", "let_be", "Leave it", "Leaves it; what was there before stays."),
    Key("row-up", "up", "move(-1)", "Up", "Goes up one row.", foot=False, listed=False),
    Key("row-down", "down", "move(1)", "Down", "Goes down one row.", foot=False, listed=False),
    Key("rows-up", "pageup", "page(-1)", "Page up", "Goes up one page.", foot=False, listed=False),
    Key("rows-down", "pagedown", "page(1)", "Page down", "Goes down one page.", foot=False, listed=False),
    Key("row-first", "home", "ends(0)", "First", "Goes to the first row.", foot=False, listed=False),
    Key("row-last", "end", "ends(-1)", "Last", "Goes to the last row.", foot=False, listed=False),
)
