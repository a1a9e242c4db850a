"""`take-boards`: one visit that two people tested, each their own boards, put together into one job."""

from domain.editing.commands import Declined
from domain.editing.taking_boards import instruments_left
from domain.words import counted
from tui.commands.check import not_found
from tui.commands.command import JSON, NO, Command, CommandAnswer, Environment, TypedArgument
from tui.commands.take_out import numbers_typed


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    """Take the boards of the second job into the first."""
    number, other = numbers_typed(typed)
    with environment.open_services() as services:
        for each in (number, other):
            if services.log.line(each) is None:
                return not_found(each)
        taken = services.log.take_boards(number, other, who=services.who, at=services.now())
        job, out_of = services.log.load(number), services.log.load(other)
    if isinstance(taken, Declined):
        return CommandAnswer({"number": number, "taken": [], "says": taken.says}, f"✗ {taken.says}", NO)
    names = [board.name for board in taken.boards]
    left = instruments_left(job, out_of) if job and out_of else ()
    said = [
        f"✓ {', '.join(names)} from {other} {'is' if len(names) == 1 else 'are'} in {number}, as tested there",
        *([f"✓ {counted(len(taken.observations), 'observation')} as well"] if taken.observations else ()),
        *([f"✓ {counted(len(taken.snags), 'snag')} as well"] if taken.snags else ()),
        *(
            [f"◆ {', '.join(left)} measured there, and {number} does not name it: add it to its instruments"]
            if left
            else ()
        ),
        f"{other} is laid aside, with its trail, supply, earthing, instruments and ticks of inspection: see that {number} has them, then sign",
    ]
    return CommandAnswer({"number": number, "taken": names, "from": other, "instruments": list(left)}, "\n".join(said))


COMMAND = Command(
    name="take-boards",
    run=run,
    words="NUMBER OTHER",
    least=2,
    most=2,
    options=(JSON,),
    explains=(
        "For two people who test boards of one installation on one day, each on a laptop of their own: a job is lent whole to "
        "one of them, and the other begins a job of their own for their boards. Once both are back, the boards of OTHER, with "
        "readings, observations, snags, reasons and pictures, go into NUMBER, which says where they are from; OTHER is laid "
        "aside, with the trail of how they were tested. Undo takes them out again.\n"
        "Both have to be this log's to change, of one address and one kind of papers, and no board twice by name. Exit 1: not "
        "taken, and why."
    ),
)
