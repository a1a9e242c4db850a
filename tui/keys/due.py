"""Keys of what is due."""

from tui.keys.key import Key

KEYS: tuple[Key, ...] = (
    Key("due-open", "enter,ctrl+j", "open_due", "Open", "Opens the job under the cursor."),
    Key(
        "due-met",
        "d,D",
        "met",
        "Done",
        "Notes that it has been done, on which day and in what words; or takes that back.",
    ),
    Key("due-done", "v,V", "show_done", "Done ones", "Shows what was noted as done, when and by whom; or what is due."),
    Key("due-owed", "w,W", "owed", "What else", "Shows all that is owed for the job, and asks what that hangs on."),
    Key("due-export", "e,E", "export", "Export", "Writes the list as a table (CSV) and as a calendar (iCalendar)."),
)
