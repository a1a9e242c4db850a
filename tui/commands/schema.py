"""`schema`: the published layout of a job as JSON Schema."""

from domain.job import Job
from tui.commands.command import Answer, Command, Typed, Wiring
from tui.commands.plain import as_json


def run(typed: Typed, wiring: Wiring) -> Answer:
    """The JSON Schema of a job."""
    schema = {"$schema": "https://json-schema.org/draft/2020-12/schema"} | Job.model_json_schema()
    return Answer(schema, as_json(schema))


COMMAND = Command(name="schema", summary="the layout of a job as JSON Schema", run=run)
