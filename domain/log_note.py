"""What is kept of a person beside all jobs, in the log."""

from datetime import datetime

from domain.value import Value


class LogNote(Value):
    """Something kept of a person beside all jobs: an answer in practice, a setting."""

    at: datetime
    who: str
    text: str
