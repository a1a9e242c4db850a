"""Every key of the program, in one table: what it does, its word in the foot line, its sentence in the help."""

from dataclasses import dataclass
from typing import Any

from textual.binding import Binding
from textual.dom import DOMNode
from textual.screen import Screen


@dataclass(frozen=True, slots=True)
class Key:
    """One binding. `keys` is a comma-separated list as Textual names keys; the first is shown."""

    id: str
    keys: str
    action: str
    word: str
    says: str
    foot: bool = True
    listed: bool = True
    """Worth picking from the list of everything that can be done; moving about is not."""

    @property
    def shown(self) -> str:
        """The key as printed on a keyboard."""
        return self.ways[0]

    @property
    def ways(self) -> list[str]:
        """Every key that does it, as printed on a keyboard; what a keypad or an old terminal sends is left out."""
        names = [name for name in self.keys.split(",") if name not in {"ctrl+j", "ctrl+h"}]
        return list(dict.fromkeys(_printed(name) for name in names))


def _printed(name: str) -> str:
    return _SHOWN.get(name) or (f"Ctrl+{name[5:].upper()}" if name.startswith("ctrl+") else name.upper())


_SHOWN = {
    "enter": "Enter",
    "escape": "Esc",
    "tab": "Tab",
    "shift+tab": "Shift+Tab",
    "up": "Up",
    "down": "Down",
    "left": "Left",
    "right": "Right",
    "home": "Home",
    "end": "End",
    "pageup": "PgUp",
    "pagedown": "PgDn",
    "delete": "Del",
    "backspace": "Backspace",
    "space": "Space",
    "slash": "/",
    "ctrl+up": "Ctrl+Up",
    "ctrl+down": "Ctrl+Down",
    "ctrl+left": "Ctrl+Left",
    "ctrl+right": "Ctrl+Right",
    "ctrl+home": "Ctrl+Home",
    "ctrl+end": "Ctrl+End",
}

ENTER = "enter,ctrl+j"

KEYS: tuple[Key, ...] = (
    # Everywhere
    Key("help", "f1", "app.help", "Help", "Shows what this screen is for and every key that works on it."),
    Key(
        "coach",
        "f2",
        "coach",
        "Coach",
        "Opens or closes the coach: what this is, why it is asked, how it is found, what can hurt, and the rule.",
    ),
    Key(
        "palette",
        "ctrl+p",
        "app.palette",
        "All",
        "Lists everything that can be done here, to pick by typing.",
        foot=False,
        listed=False,
    ),
    Key(
        "repaint",
        "ctrl+l",
        "app.repaint",
        "Paint anew",
        "Paints the screen anew, where something else has written over it.",
        foot=False,
        listed=False,
    ),
    Key("back", "escape", "back", "Back", "Goes back one step. What was typed stays."),
    Key("leave", "ctrl+x", "app.leave", "Leave", "Leaves the program. Everything saved stays saved."),
    # Inside a job
    Key(
        "details",
        "f3",
        "step('details')",
        "Details",
        "Client, premises, the work or the report, supply, earthing, boards.",
        foot=False,
    ),
    Key("circuits", "f4", "step('circuits')", "Circuits", "The schedule of circuit details.", foot=False),
    Key("results", "f5", "step('results')", "Results", "The schedule of test results.", foot=False),
    Key("inspection", "f6", "step('inspection')", "Inspect", "The inspection items with their outcomes.", foot=False),
    Key("raised", "f7", "step('raised')", "Snags", "The snagging list, or on a report the observations.", foot=False),
    Key(
        "review",
        "f8",
        "step('review')",
        "Check",
        "Everything found and everything still missing, each with its place.",
        foot=False,
    ),
    Key("issue", "f9", "step('issue')", "Issue", "Signatures, the draft, and issuing the pack.", foot=False),
    Key(
        "go",
        "ctrl+f",
        "go",
        "Go to",
        "Goes to a circuit of this job by its number, or finds any job by words of it.",
        foot=False,
    ),
    Key(
        "undo",
        "ctrl+u",
        "undo",
        "Undo",
        "Takes back what you did last in this job; again for what came before.",
        foot=False,
    ),
    Key("redo", "ctrl+v", "redo", "Redo", "Does again what you took back last.", foot=False),
    Key("trail", "ctrl+w", "trail", "Trail", "Lists who changed what in this job, and when.", foot=False),
    Key(
        "last-time",
        "ctrl+k",
        "last_time",
        "Last time",
        "Lays what was found at this address before beside what is found now.",
        foot=False,
    ),
    Key(
        "next-open", "ctrl+g", "next_open", "Next open", "Goes to the next thing that keeps this job from being issued."
    ),
    # Questions, lists and pages of text
    Key("yes", "y,Y,enter,ctrl+j", "answer(True)", "Yes", "Says yes to the question."),
    Key("no", "n,N,escape", "answer(False)", "No", "Says no; everything stays as it was."),
    Key(
        "accept-line", "enter,ctrl+j", "accept_line", "Next", "Takes the line and goes on; on the last line it is done."
    ),
    Key("accept-one", "enter,ctrl+j", "accept_line", "Keep it", "Takes the line as typed."),
    Key("accept-all", "ctrl+o", "accept_all", "Done", "Takes all lines as they stand."),
    Key("line-down", "tab,down", "line(1)", "Next line", "Goes to the next line.", foot=False),
    Key("line-up", "shift+tab,up", "line(-1)", "Line before", "Goes to the line before.", foot=False),
    Key("let-be", "escape", "let_be", "Leave it", "Leaves it; what was there before stays."),
    Key("row-up", "up", "move(-1)", "Up", "Goes up one row.", foot=False, listed=False),
    Key("row-down", "down", "move(1)", "Down", "Goes down one row.", foot=False, listed=False),
    Key("rows-up", "pageup", "page(-1)", "Page up", "Goes up one page.", foot=False, listed=False),
    Key("rows-down", "pagedown", "page(1)", "Page down", "Goes down one page.", foot=False, listed=False),
    Key("row-first", "home", "ends(0)", "First", "Goes to the first row.", foot=False, listed=False),
    Key("row-last", "end", "ends(-1)", "Last", "Goes to the last row.", foot=False, listed=False),
    # A page of boxes
    Key(
        "page-enter",
        "enter,ctrl+j",
        "enter",
        "Keep",
        "While typing: keeps the entry and goes to the next box. On a box at rest: opens its text for changing.",
    ),
    Key("entry-open", "ctrl+e", "open", "Change", "Opens the text under the cursor for changing, at its end."),
    Key(
        "entry-next",
        "tab",
        "next",
        "Next",
        "Keeps the entry and goes to the next box. Typing on a box at rest replaces its text.",
        foot=False,
        listed=False,
    ),
    Key(
        "entry-previous",
        "shift+tab",
        "previous",
        "Before",
        "Keeps the entry and goes back a box.",
        foot=False,
        listed=False,
    ),
    Key("entry-down", "down", "down", "Down", "Keeps the entry and goes down.", foot=False, listed=False),
    Key("entry-up", "up", "up", "Up", "Keeps the entry and goes up.", foot=False, listed=False),
    Key("page-part-next", "pagedown", "part_next", "Next part", "Goes to the first box under the next heading."),
    Key(
        "page-part-previous",
        "pageup",
        "part_previous",
        "Part before",
        "Goes to the first box under this heading, or the one before.",
        foot=False,
        listed=False,
    ),
    Key("page-first", "home", "first", "First", "Goes to the first box.", foot=False, listed=False),
    Key("page-last", "end", "last", "Last", "Goes to the last box.", foot=False, listed=False),
    Key(
        "entry-empty",
        "delete,backspace,ctrl+h",
        "empty",
        "Empty",
        "Begins an entry with nothing in it; Enter then clears the box.",
        foot=False,
    ),
    Key("entry-give-back", "escape", "give_back", "As before", "While typing: gives the old text back.", foot=False),
    Key(
        "take-known",
        "ctrl+y",
        "take_known",
        "Take known",
        "Takes what the register knows of the letters typed, with the boxes that belong to it; with none typed, takes the client's own address, or shows the register.",
        foot=False,
    ),
    Key(
        "set-na",
        "f10",
        "set_mark('N/A')",
        "N/A",
        "Marks the box N/A, not applicable, and goes on. N and Enter does the same where a figure belongs.",
        foot=False,
    ),
    Key(
        "set-lim",
        "f11",
        "set_mark('LIM')",
        "LIM",
        "Marks the box LIM, an agreed limitation, and goes on; or L and Enter. V and Enter is N/V, not verified.",
        foot=False,
    ),
    Key(
        "set-tick", "f12", "set_mark('Y')", "Tick", "Ticks the box and goes on. Y and Enter does the same.", foot=False
    ),
    # A schedule of circuits
    Key(
        "grid-enter",
        "enter,ctrl+j",
        "enter",
        "Keep",
        "Keeps the entry and goes on to the next box that is needed: across the circuit, or down the column.",
    ),
    Key(
        "grid-way",
        "ctrl+t",
        "way",
        "Turn Enter",
        "Turns the way Enter goes on: across or down. The head shows it.",
        foot=False,
    ),
    Key("grid-right", "right", "right", "Right", "Keeps the entry and goes right.", foot=False, listed=False),
    Key("grid-left", "left", "left", "Left", "Keeps the entry and goes left.", foot=False, listed=False),
    Key("grid-first", "home", "first", "First", "Goes to the first box of the circuit.", foot=False, listed=False),
    Key("grid-last", "end", "last", "Last", "Goes to the last box of the circuit.", foot=False, listed=False),
    Key(
        "grid-rows-down",
        "pagedown",
        "rows_down",
        "Page down",
        "Goes down one screen of circuits.",
        foot=False,
        listed=False,
    ),
    Key("grid-rows-up", "pageup", "rows_up", "Page up", "Goes up one screen of circuits.", foot=False, listed=False),
    Key("grid-top", "ctrl+home", "top", "Top", "Goes to the first box of the first circuit.", foot=False),
    Key("grid-bottom", "ctrl+end", "bottom", "Bottom", "Goes to the last box of the last circuit.", foot=False),
    Key(
        "like-above",
        "ctrl+y",
        "like_above",
        "Like above",
        "Takes the text of the circuit above, for details only: readings are measured on each circuit.",
        foot=False,
    ),
    Key(
        "fill-down",
        "ctrl+d",
        "fill_down",
        "Fill down",
        "Fills the circuits below like this one, as far as you say, for details only; one undo takes it back.",
        foot=False,
    ),
    Key(
        "circuit-add",
        "ctrl+n",
        "add_circuit",
        "New circuit",
        "Adds a circuit after this one: the next number, the same details but points and length, no readings.",
    ),
    Key(
        "circuit-remove",
        "ctrl+r",
        "remove_circuit",
        "Remove circuit",
        "Removes this circuit, after a question when it holds anything.",
        foot=False,
    ),
    Key("circuit-up", "ctrl+up", "move_circuit(-1)", "Move up", "Moves this circuit up one line.", foot=False),
    Key("circuit-down", "ctrl+down", "move_circuit(1)", "Move down", "Moves this circuit down.", foot=False),
    Key("board-next", "ctrl+right", "board(1)", "Next board", "Goes to the next board.", foot=False),
    Key("board-previous", "ctrl+left", "board(-1)", "Board before", "Goes to the board before.", foot=False),
    # Boards
    Key("board-add", "ctrl+o", "add_board", "New board", "Adds a board and goes to its header.", foot=False),
    Key(
        "board-remove",
        "ctrl+r",
        "remove_board",
        "Remove board",
        "Removes the board under the cursor, after a question.",
        foot=False,
    ),
    # The first questions, and finding a job
    Key("take", "enter,ctrl+j", "take", "Take it", "Gives the answer under the cursor, or opens the job under it."),
    Key("find", "slash,ctrl+f", "find", "Find", "Searches all jobs by any word of theirs."),
    Key("start-job", "enter,ctrl+j", "start", "Start the job", "Starts the job with these papers."),
    Key("disagree", "d,D", "disagree", "Other papers", "Takes another form set than advised; the reason is asked."),
    Key(
        "owed", "w,W", "owed", "What else", "Shows what else is owed, to whom and by when, and asks what that hangs on."
    ),
    Key("each", "m,M", "each", "One each", "Starts a minor works for each circuit; what they share is typed once."),
    # What else is owed, and what is due
    Key("case-next", "enter,ctrl+j", "next_case", "Next case", "Goes on to the next case, once this one is answered."),
    Key("practice-summary", "s,S", "summary", "Summary", "Shows on one page how the practice stands."),
    Key("summary-print", "p,P", "print", "Print", "Makes the page a PDF in a folder, for a supervisor."),
    Key("due", "f4,ctrl+d", "due", "Due", "Lists what is due for all jobs, soonest first."),
    Key(
        "registers",
        "f5,ctrl+r",
        "registers",
        "Registers",
        "Opens the registers: people, firms, clients, premises and instruments.",
    ),
    Key("practice", "f6,ctrl+t", "practice", "Practice", "Puts short cases to somebody new to the trade."),
    # The last time
    Key("last-open", "enter,ctrl+j", "open", "Readings", "Shows every reading then and now, with its trend."),
    Key("last-confirm", "y,Y", "confirm", "Same", "Says that the two circuits side by side are the same."),
    Key("last-all", "a,A", "confirm_all", "All the same", "Says so of every pair shown, after a question.", foot=False),
    Key("last-match", "m,M", "match", "Another", "Picks the circuit it was, or none, where another is shown."),
    Key(
        "last-carry",
        "c,C",
        "carry_over",
        "Carry over",
        "Takes supply, boards, wiring and devices over into this job, after a question; never a reading.",
    ),
    Key("last-older", "right,o,O", "turn(1)", "Older visit", "Goes to the visit before that."),
    Key("last-newer", "left,n,N", "turn(-1)", "Newer visit", "Goes to the visit after that.", foot=False),
    Key("last-link", "l,L", "link", "Link", "Lays an earlier paper beside this job by its number."),
    Key("match-take", "enter,ctrl+j", "take", "It was this", "Takes the circuit under the cursor as the one it was."),
    # Putting a report right
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
    # The registers
    Key("register-next", "right,tab", "turn(1)", "Next register", "Goes to the next register."),
    Key("register-before", "left,shift+tab", "turn(-1)", "Register before", "Goes to the register before.", foot=False),
    Key("register-take", "enter,ctrl+j", "take", "Take it", "Takes the entry under the cursor into the job."),
    Key("register-open", "enter,ctrl+j", "change", "Change", "Changes the entry; its older versions stay kept."),
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
    Key("register-retired", "v,V", "show_retired", "Retired", "Shows the retired entries, or the others.", foot=False),
    Key(
        "register-check",
        "x,X",
        "check",
        "Cross-check",
        "Notes what the instrument read where the true value is known.",
        foot=False,
    ),
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
    Key(
        "owed-dates",
        "f3,ctrl+t",
        "dates",
        "Give dates",
        "Asks when the work was done, or a tenant moved in, or a council asked: days that others are counted from.",
    ),
    Key("owed-answer", "enter,ctrl+j", "take", "Take it", "Gives the answer under the cursor."),
    Key("owed-done", "enter,ctrl+j", "done", "Done", "Goes back to where you came from; every answer is kept."),
    Key(
        "owed-before",
        "left,backspace,ctrl+h",
        "before",
        "Question before",
        "Goes back a question; its answer stays under the cursor.",
    ),
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
    # Inspection
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
    Key("item-open", "enter,ctrl+j", "open", "Write", "Writes the observation of a coded item, or a remark."),
    Key(
        "item-add",
        "i,I",
        "add_item",
        "Add item",
        "Adds an item for premises that the usual list does not fit.",
        foot=False,
    ),
    Key("item-snag", "s,S,f,F", "raise_snag", "Snag", "Raises a snag: the item is not as it should be."),
    Key("remark", "m,M", "remark", "Remark", "Writes a remark on the item.", foot=False),
    Key("unmark", "delete,backspace,ctrl+h", "unmark", "Take away", "Takes the mark away.", foot=False),
    # Snags and observations
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
    Key("go-there", "g,G", "go_there", "Place", "Goes to the place it was raised about."),
    # Everything found and still missing
    Key("visit", "enter,ctrl+j", "visit_row", "Go there", "Goes to the place of the line under the cursor."),
    Key(
        "raise-about", "r,R", "raise_about", "Raise it", "Raises a snag, or an observation on a report, from this line."
    ),
    Key("explain", "e,E", "explain", "Explain", "Gives the reason why a reading asked about is right; it is printed."),
    # Signing and issuing
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
    Key("verify-file", "v,V", "verify_file", "Verify", "Says whether a file is a paper as this log issued it."),
    Key(
        "say-why", "w,W", "say_why", "Why", "Says why the document that this one replaces is corrected; it is printed."
    ),
    Key("trail-visit", "enter,ctrl+j", "visit_edit", "Go there", "Goes to the box of the edit under the cursor."),
    # Help and the list of everything
    Key("close", "escape,f1", "close", "Close", "Goes back to the screen below."),
    Key("coach-close", "escape,f2", "close", "Close", "Goes back to the question below."),
    Key("pick-key", "enter,ctrl+j", "pick", "Do it", "Does what stands under the cursor."),
)

BY_ID = {key.id: key for key in KEYS}


def bindings(*ids: str) -> list[Binding | tuple[str, str] | tuple[str, str, str]]:
    """The bindings with these ids, for a screen's or widget's BINDINGS."""
    return [
        Binding(key.keys, key.action, key.word, show=key.foot, key_display=key.shown, id=key.id)
        for key in (BY_ID[each] for each in ids)
    ]


def keys_at(screen: Screen[Any]) -> list[tuple[Key, DOMNode]]:
    """Every key that works on a screen now, with whose it is: help and coach first, then those of this place, then the rest."""
    found = {
        active.binding.id: (BY_ID[active.binding.id], active.node)
        for active in screen.active_bindings.values()
        if active.binding.id in BY_ID
    }
    return sorted(found.values(), key=lambda each: _rank(each[0]))


def is_everywhere(key: Key) -> bool:
    """The key is none of this place: the coach, the ways between screens, and out."""
    return _ORDER[key.id] <= _ORDER["next-open"]


def _rank(key: Key) -> tuple[int, int]:
    at = _ORDER[key.id]
    if key.id in {"help", "coach"}:
        return 0, at
    if is_everywhere(key):
        return 3, at
    return 1 if key.foot else 2, at


_ORDER = {key.id: at for at, key in enumerate(KEYS)}
