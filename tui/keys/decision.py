"""Keys of the page that tells the papers."""

from tui.keys.key import Key

KEYS: tuple[Key, ...] = (
    Key("start-job", "enter,ctrl+j", "start", "Start the job", "Starts the job with these papers."),
    Key("disagree", "d,D", "disagree", "Other papers", "Takes another form set than advised; the reason is asked."),
    Key(
        "owed", "w,W", "owed", "What else", "Shows what else is owed, to whom and by when, and asks what that hangs on."
    ),
    Key("each", "m,M", "each", "One each", "Starts a minor works for each circuit; what they share is typed once."),
)
