"""The version of the layout in which a job goes from log to log as JSON."""

from typing import Final, Literal

SCHEMA_VERSION: Final[Literal[1]] = 1
