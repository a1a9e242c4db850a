"""Keys of finding a job."""

from tui.keys.key import Key

KEYS: tuple[Key, ...] = (
    Key("open-found", "enter,ctrl+j", "open_found", "Open", "Opens the job under the cursor where you left it."),
    Key("find-form", "ctrl+o", "narrow('form_set')", "Papers", "Shows jobs of one form set only, one after another."),
    Key(
        "find-list",
        "f5,ctrl+r",
        "next_list",
        "List",
        "Shows one of the ready lists after another: yours, due, and more.",
    ),
    Key("find-state", "f3,ctrl+t", "narrow('state')", "State", "Shows jobs in one state only, one after another."),
    Key("find-snags", "f4,ctrl+n", "narrow('open_snags')", "Snags", "Shows jobs with open snags only, or without."),
    Key("find-outcome", "f7,ctrl+g", "narrow('outcome')", "Outcome", "Shows jobs of one outcome only."),
    Key(
        "find-year",
        "f8,ctrl+y",
        "narrow('year')",
        "Year",
        "Shows jobs of this year only, of last year, and so on back.",
    ),
)
