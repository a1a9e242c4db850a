"""Keys of the inspection."""

from tui.keys.key import Key

KEYS: tuple[Key, ...] = (
    Key("mark-pass", "space,y,Y,f12", "mark('PASS')", "Pass", "Marks the item as inspected and acceptable."),
    Key("mark-na", "n,N,f10", "mark('NOT_APPLICABLE')", "N/A", "Marks the item as not applicable."),
    Key("rest-pass", "r,R", "rest('PASS')", "Rest pass", "Marks what is still open in this section as a pass."),
    Key("mark-c1", "1", "mark('C1')", "C1", "Codes the item C1, danger present, and asks for the observation."),
    Key("mark-c2", "2", "mark('C2')", "C2", "Codes the item C2, potentially dangerous, and asks for the observation."),
    Key(
        "mark-c3", "3", "mark('C3')", "C3", "Codes the item C3, improvement recommended, and asks for the observation."
    ),
    Key(
        "mark-fi", "f,F", "mark('FI')", "FI", "Codes the item FI, further investigation, and asks for the observation."
    ),
    Key("mark-lim", "l,L,f11", "mark('LIMITATION')", "LIM", "Marks the item as not inspected by an agreed limitation."),
    Key("mark-nv", "v,V", "mark('NOT_VERIFIED')", "N/V", "Marks the item as not verified, and asks why."),
    Key("rest-na", "a,A", "rest('NOT_APPLICABLE')", "Rest N/A", "Marks what is still open in this section as N/A."),
    Key(
        "not-there",
        "d,D",
        "not_there",
        "Not there",
        "Marks N/A, after a question that lists them, the items of what the rest of the record says is not there.",
        foot=False,
    ),
    Key("item-open", "enter,ctrl+j", "open", "Write", "Writes the observation of a coded item, or a remark."),
    Key(
        "item-add",
        "i,I",
        "add_item",
        "Add item",
        "Adds an item for premises that the usual list does not fit.",
        foot=False,
    ),
    Key(
        "items-offered",
        "o,O",
        "add_offered",
        "Rows offered",
        "Adds the rows offered for what the edition has new and the installation has.",
    ),
    Key("item-snag", "s,S,f,F", "raise_snag", "Snag", "Raises a snag: the item is not as it should be."),
    Key("remark", "m,M", "remark", "Remark", "Writes a remark on the item.", foot=False),
    Key("unmark", "delete,backspace,ctrl+h", "unmark", "Take away", "Takes the mark away.", foot=False),
)
