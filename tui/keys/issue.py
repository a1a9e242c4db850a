"""Keys of signing and issuing."""

from tui.keys.key import Key

KEYS: tuple[Key, ...] = (
    Key("issued-do", "enter,ctrl+j", "do_row", "Do it", "Does what is under the cursor with the paper."),
    Key(
        "row-do",
        "enter,ctrl+j",
        "do_row",
        "Sign or go",
        "Signs for the part under the cursor, or goes to the place.",
    ),
    Key("sign-all", "a,A", "sign_all", "Sign all", "One person signs for every part, after a question."),
    Key(
        "unsign",
        "delete,backspace,ctrl+h",
        "unsign",
        "Take back",
        "Takes the signature under the cursor back.",
        foot=False,
    ),
    Key("draft", "d,D", "draft", "Draft", "Prints a draft to a folder; it says DRAFT on every page."),
    Key("issue-now", "i,I", "issue", "Issue", "Issues the pack, or says everything that keeps it back."),
    Key("correct", "c,C", "correct", "Correct it", "Begins a new document that will replace the issued one."),
    Key("pack-again", "p,P", "pack_again", "Pack again", "Puts the pack into a folder once more, as it was issued."),
    Key("mail", "m,M", "mail", "E-mail", "Writes a draft e-mail with the pack attached, for any mail program."),
    Key("verify-file", "v,V", "verify_file", "Verify", "Says whether a file is a paper as this log issued it."),
    Key(
        "lay-aside",
        "l,L",
        "lay_aside",
        "Lay aside",
        "Lays the draft aside, out of every list but its own, or takes it up again; it keeps its number.",
    ),
    Key(
        "say-why", "w,W", "say_why", "Why", "Says why the document that this one replaces is corrected; it is printed."
    ),
)
