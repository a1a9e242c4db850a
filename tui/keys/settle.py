"""Keys of settling what came of work between an office and its laptops."""

from tui.keys.key import Key

KEYS: tuple[Key, ...] = (
    Key("settle-first", "1", "choose(1)", "First choice", "Takes the first of the two choices, once you say so."),
    Key("settle-second", "2", "choose(2)", "Second", "Takes the second of the two choices, once you say so."),
    Key("settle-open", "o,O", "open(0)", "Its job", "Looks at the job it is about."),
    Key("settle-other", "t,T", "open(1)", "The other", "Looks at the other job, where there is one."),
)
