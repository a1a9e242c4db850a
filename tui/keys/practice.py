"""Keys of the practice and its summary."""

from tui.keys.key import Key

KEYS: tuple[Key, ...] = (
    Key("case-next", "enter,ctrl+j", "next_case", "Next case", "Goes on to the next case, once this one is answered."),
    Key("practice-summary", "s,S", "summary", "Summary", "Shows on one page how the practice stands."),
    Key("summary-print", "p,P", "print", "Print", "Makes the page a PDF in a folder, for a supervisor."),
    Key("visit-print", "p,P", "print", "Print", "Makes the sheet one page of PDF in a folder."),
)
