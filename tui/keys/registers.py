"""Keys of the registers."""

from tui.keys.key import Key

KEYS: tuple[Key, ...] = (
    Key("register-next", "right,tab", "turn(1)", "Next register", "Goes to the next register."),
    Key("register-before", "left,shift+tab", "turn(-1)", "Register before", "Goes to the register before.", foot=False),
    Key("register-take", "enter,ctrl+j", "take", "Take it", "Takes the entry under the cursor into the job."),
    Key("register-open", "enter,ctrl+j", "open", "Change", "Changes the entry; its older versions stay kept."),
    Key("register-change", "e,E", "change", "Change", "Changes the entry too, where Enter takes it.", foot=False),
    Key("register-add", "n,N", "add", "New", "Adds an entry to this register."),
    Key("register-words", "slash,ctrl+f", "words", "Find", "Shows the entries that hold some words only."),
    Key(
        "register-retire",
        "delete,w,W",
        "retire",
        "Retire",
        "Takes the entry out of what is offered, after a question; or puts a retired one back.",
    ),
    Key(
        "register-merge",
        "m,M",
        "merge",
        "Merge",
        "Makes the entry one with another: the other is picked, gets what it lacks, and this one is offered no more.",
        foot=False,
    ),
    Key(
        "register-phrase",
        "p,P",
        "set_phrase",
        "Phrase",
        "Sets the signing phrase of the person: whoever has one gives it first. Nobody signs as them without it.",
        foot=False,
    ),
    Key("register-retired", "v,V", "show_retired", "Retired", "Shows the retired entries, or the others.", foot=False),
    Key(
        "register-check",
        "x,X",
        "check",
        "Cross-check",
        "Notes what the instrument read where the true value is known.",
        foot=False,
    ),
)
