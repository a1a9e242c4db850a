"""`schema`: the published layout of a job as JSON Schema."""

from domain.job.job import Job
from tui.commands.command import Command, CommandAnswer, Environment, TypedArgument
from tui.commands.output import as_json


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    """The JSON Schema of a job."""
    schema = {"$schema": "https://json-schema.org/draft/2020-12/schema"} | Job.model_json_schema()
    return CommandAnswer(schema, as_json(schema))


COMMAND = Command(name="schema", run=run)
