"""Keys of the snagging list and the observations."""

from tui.keys.key import Key

KEYS: tuple[Key, ...] = (
    Key(
        "raised-open", "enter,ctrl+j", "open", "Open", "Clears the snag under the cursor, or rewrites the observation."
    ),
    Key("raise", "r,R", "raise_one", "Raise", "Raises a new one."),
    Key("clear", "c,C", "clear", "Clear", "Clears the snag under the cursor; asks how it was put right, and by whom."),
    Key("reopen", "o,O", "reopen", "Reopen", "Opens a cleared snag again."),
    Key("withdraw", "delete,w,W", "withdraw", "Withdraw", "Takes the observation away, after a question."),
    Key(
        "answers", "a,A", "answers", "Answers", "Ticks which failing readings the observation under the cursor answers."
    ),
    Key("answer-tick", "space", "tick", "Tick", "Ticks the failing reading under the cursor, or takes the tick away."),
    Key("answers-keep", "enter,ctrl+j,ctrl+o", "keep", "Keep", "Keeps what is ticked."),
    Key("answers-leave", "escape", "leave_as_it_was", "Leave", "Leaves everything as it was."),
    Key(
        "beside",
        "b,B",
        "beside",
        "Beside",
        "Begins the certificate for what was put right on the visit of this report: a job of its own, same client and place.",
        foot=False,
    ),
    Key(
        "picture",
        "t,T",
        "picture",
        "Picture",
        "Takes a photograph or thermal image in, of what is under the cursor or of a board.",
        foot=False,
    ),
    Key("picture-out", "x,X", "picture_out", "Take out", "Takes its last picture out of the record.", foot=False),
    Key("go-there", "g,G", "go_there", "Place", "Goes to the place it was raised about."),
)
