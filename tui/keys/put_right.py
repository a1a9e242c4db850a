"""Keys of putting a report right."""

from tui.keys.key import Key

KEYS: tuple[Key, ...] = (
    Key("put-right", "p,P", "put_right", "Put right", "Shows how what this report found is being put right."),
    Key("find-put-right", "f6,ctrl+d", "put_right", "Put right", "Shows how far the report under the cursor is."),
    Key(
        "right-note",
        "enter,ctrl+j",
        "note",
        "How",
        "Notes how the observation was put right, and which paper proves it.",
    ),
    Key("right-mark", "space", "mark", "Mark", "Marks the observation for the job that is started next.", foot=False),
    Key("right-start", "s,S", "start", "Start a job", "Starts the job that puts the marked ones, or this one, right."),
    Key("right-go", "g,G", "go", "Its job", "Opens the job that puts it right.", foot=False),
    Key("right-open", "o,O", "open_again", "Open again", "Takes back what was noted, until all is closed.", foot=False),
    Key("right-letter", "l,L", "letter", "Letter", "Makes the letter of confirmation, once everything is put right."),
)
