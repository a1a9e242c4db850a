"""What whoever works in a log on a server may do there, and nothing besides."""

from collections.abc import Iterable
from typing import Any

from psycopg import Connection
from psycopg.sql import SQL, Identifier

from domain.log.job_log import JobLogError
from storage.postgres.office_layout import RIGHTS as OFFICE_RIGHTS
from storage.postgres.server_address import ServerAddress

_RIGHTS = (
    "SELECT ON ALL TABLES IN SCHEMA {schema}",
    "INSERT ON job, draft, edit, hand, issued, paper, left_off, note, job_text, near, register, ledger",
    "INSERT ON register_now, register_word, duty_day, duty_job, duty_rules",
    "UPDATE ON job, draft, hand, left_off, job_text, register_now, duty_day, duty_job",
    "UPDATE (next_number) ON device",
    "DELETE ON draft, register_word, duty_day, duty_rules",
    "USAGE ON ALL SEQUENCES IN SCHEMA {schema}",
    *OFFICE_RIGHTS,
)
"""The least that people need: what is issued, done or noted is added to by them, and never altered or taken away."""


def grant(connection: Connection[Any], address: ServerAddress, role: str) -> None:
    """Open the log to a role of the server, with the least it needs to work in it."""
    schema, to = Identifier(address.schema), Identifier(role)
    if not connection.execute("SELECT 1 FROM pg_roles WHERE rolname = %s", (role,)).fetchall():
        raise JobLogError(f"The server knows no role {role!r}. Whoever looks after it makes one: createuser {role}.")
    with connection.transaction():
        connection.execute(SQL("GRANT USAGE ON SCHEMA {} TO {}").format(schema, to))
        connection.execute(SQL("SET LOCAL search_path TO {}, pg_temp").format(schema))
        for right in _rights():
            connection.execute(SQL("GRANT {right} TO {to}").format(right=right.format(schema=schema), to=to))


def _rights() -> Iterable[SQL]:
    return map(SQL, _RIGHTS)
