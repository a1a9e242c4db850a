"""The lists of jobs an office asks for again and again."""

from collections.abc import Mapping
from datetime import date, timedelta
from typing import Any

from domain.log.job_log import State

SOON = timedelta(days=90)


def ready_lists(who: str, on: date) -> Mapping[str, Mapping[str, Any]]:
    """Each list by its name, as what to ask the log for; the first is everything."""
    return {
        "all": {},
        "yours": {"hand": who},
        "snagged": {"open_snags": True},
        "ready": {"state": State.READY},
        "due": {"due_before": on + SOON},
        "unsatisfactory": {"to_put_right": True},
        "aside": {"laid_aside": True},
    }
