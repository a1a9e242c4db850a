"""`bring-in`: a job from a file into the log."""

from domain.start import as_draft
from tui.commands.command import Answer, Command, Typed, Wiring
from tui.commands.find import line_as_value
from tui.commands.incoming import job_in


def run(typed: Typed, wiring: Wiring) -> Answer:
    """Keep the job in a file as a draft with a number of this log."""
    job = as_draft(job_in(typed.words[0]))
    with wiring.at_desk() as desk:
        kept = desk.log.create(job, who=desk.who, at=desk.now())
        line = desk.log.line(kept.number)
    assert line
    return Answer(line_as_value(line), f"In the log as {kept.number}, {line.state}")


COMMAND = Command(
    name="bring-in",
    summary="take a job from a JSON file into the log, as a draft with a new number",
    run=run,
    words="JOB.json",
    least=1,
    most=1,
    explains="Signatures that fit the job are kept; that it was issued elsewhere is not.",
)
