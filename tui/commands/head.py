"""`head`: the chain over all that the log ever kept, to be kept elsewhere; or whether one that was is of this log."""

import re

from domain.value import cleaned
from tui.commands.command import FINE, JSON, NO, Command, CommandAnswer, Environment, TypedArgument, UnusableError

_HEAD = re.compile("[0-9a-f]{64}")


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    """The head as it is now, or what is known of a head that was kept elsewhere."""
    place = environment.place()
    asked = cleaned(typed.words[0]).lower() if typed.words else ""
    if asked and not _HEAD.fullmatch(asked):
        raise UnusableError("A head has 64 letters from 0 to 9 and a to f, as papers and this command print it")
    with environment.open_services(place) as services:
        if not asked:
            head = services.log.chain_head()
            return CommandAnswer({"head": head}, head)
        known = services.log.had_head(asked)
    says = (
        "✓ This log had that head. If `ohmfolio tend` finds it whole, nothing that was kept before was altered since"
        if known
        else "✗ This log never had that head: it was altered since, or the head is of another log"
    )
    return CommandAnswer({"head": asked, "known": known}, says, FINE if known else NO)


COMMAND = Command(
    name="head",
    run=run,
    words="[HEAD]",
    most=1,
    options=(JSON,),
    explains=(
        "The head follows from everything the log ever kept, in its order: edits, issued records, registers, notes. Every "
        "paper prints the one before it. Keep it where nobody who can write to the log can: in a letter, a mail to yourself, "
        "another computer, day by day beside the backup. Given one that was kept, exit 0 where this log had it, 1 where it "
        "never had."
    ),
)
