"""A log on a server, as one end of a move."""

from collections.abc import Sequence
from typing import Any

from psycopg import Connection

from storage.moving.parts import DEVICE, JOB, PAPER, LogPart, Row, last_ops

_WHOLE_NUMBERS = {"is_here", "retired"}
"""What a server keeps as yes or no."""
NUMBERED = (
    *(("job", "id"), ("edit", "seq"), ("note", "id"), ("left_off", "turn"), ("register", "seq")),
    *(("station", "turn"), ("operation", "seq"), ("matter", "seq")),
)
"""Tables whose rows the server numbers, and in which column."""


class ServerEnd:
    """Fulfils `storage.moving.parts.LogEnd` by one connection, whose schema is looked up first."""

    def __init__(self, connection: Connection[Any]) -> None:
        self._connection = connection

    def rows(self, part: LogPart, after: Row | None, limit: int) -> list[Row]:
        """The rows after a key, in the order of the keys."""
        source = (
            "(SELECT seq, number, pdf FROM issued JOIN paper USING (number)) AS paper" if part is PAPER else part.name
        )
        columns = ", ".join(f"{each}::integer" if each in _WHOLE_NUMBERS else each for each in part.columns)
        beyond = f"WHERE ({part.key}) > ({', '.join(['%s'] * part.keys)})" if after else ""
        return self._asked(f"SELECT {columns} FROM {source} {beyond} ORDER BY {part.key} LIMIT {limit}", after or ())

    def last(self, part: LogPart) -> Row | None:
        """The key of the last row that is there."""
        source = "(SELECT seq FROM issued JOIN paper USING (number)) AS paper" if part is PAPER else part.name
        found = self._asked(f"SELECT {part.key} FROM {source} ORDER BY {part.last_first} LIMIT 1", ())
        return found[0] if found else None

    def add(self, part: LogPart, rows: Sequence[Row]) -> None:
        """Keep rows, all of them or none."""
        columns = part.columns
        if part is PAPER:
            columns, rows = columns[1:], [row[1:] for row in rows]
        if part is DEVICE:
            # What a log begins with gives way.
            self._connection.execute("DELETE FROM device")
        if part is JOB:
            at = columns.index("state")
            columns, rows = (*columns, "duties"), [(*row[:at], "draft", *row[at + 1 :], "") for row in rows]
        with self._connection.cursor().copy(f"COPY {part.name} ({', '.join(columns)}) FROM STDIN".encode()) as copy:
            for row in rows:
                copy.write_row(row)

    def set_states(self, rows: Sequence[Row]) -> None:
        """Have jobs be what they are."""
        self._connection.execute(
            "UPDATE job SET state = told.state FROM unnest(%s::bigint[], %s::text[]) AS told (id, state)"
            " WHERE job.id = told.id AND job.state <> told.state",
            ([row[0] for row in rows], [row[1] for row in rows]),
        )

    def finish(self) -> None:
        """Number on from what was moved."""
        for table, column in NUMBERED:
            self._connection.execute(
                f"SELECT setval(pg_get_serial_sequence('{table}', '{column}'), (SELECT 1 + coalesce(max({column}), 0)"
                f" FROM {table}), false)".encode()
            )
        ((device,),) = self._asked("SELECT id FROM device WHERE is_here", ())
        self._asked("SELECT setval('edit_name', %s, false)", (1 + last_ops(self).get(device, 0),))

    def _asked(self, statement: str, values: Any) -> list[Row]:
        return self._connection.execute(statement.encode(), values).fetchall()
