"""What an office and its laptops tell each other, kept in the file of the log."""

from collections.abc import Callable

from storage.exchange_rows import ExchangeRows
from storage.log_file import LogFile
from storage.witnessing import WITNESS_TASK


class SqliteExchange(ExchangeRows):
    """Fulfils `domain.laptops.exchange_store.ExchangeStore`. Writes are made inside a write of the file."""

    def __init__(self, file: LogFile, recorded: Callable[[str, int], object]) -> None:
        """`recorded` is told of each operation of this device, by its device and counter."""
        super().__init__(file, recorded)
        self._file = file

    def take_turn(self) -> None:
        """Whoever writes to the file has it alone."""

    def become(self, device: str, name: str) -> None:
        """Number and record under another name; the witness of the log begins anew with it."""
        self._file.run("UPDATE device SET is_here = 0")
        self._file.run(
            "INSERT INTO device (id, prefix, next_number, next_op, is_here) VALUES (?, ?, 1, 1, 1)"
            " ON CONFLICT (id) DO UPDATE SET is_here = 1",
            (device, name),
        )
        self._file.run("INSERT OR IGNORE INTO pending_task (name) VALUES (?)", (WITNESS_TASK,))
