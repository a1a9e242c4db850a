"""The one SQLite driver of the program: the choice sqlite-utils makes, without the time its import takes.

Two SQLite libraries on one file in one process break each other's locks, so every module takes it from here.
"""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import sqlite3
else:
    try:
        import pysqlite3 as sqlite3
    except ImportError:
        import sqlite3

Connection = sqlite3.Connection

__all__ = ["Connection", "sqlite3"]
