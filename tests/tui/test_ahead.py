"""Loading ahead keeps out of the way of whoever types, and is nobody's trouble."""

from pathlib import Path

import pytest

from storage.sqlite_job_log import SqliteJobLog
from tests.builders import AT, complete_certificate
from tui.preload import PIECES, load_ahead


def test_nothing_more_is_loaded_until_the_hands_rest(tmp_path: Path) -> None:
    log = SqliteJobLog.open(tmp_path)
    log.create(complete_certificate(), who="anna", at=AT)
    looks = list[bool]()

    def hands_rest() -> bool:
        looks.append(len(looks) > 2)
        return looks[-1]

    load_ahead(log, "anna", hands_rest).join()
    log.close()
    assert looks == [False] * 3 + [True] * (len(PIECES) + 3), (
        "a look before the rules, each piece, the last job and the guidance"
    )


@pytest.mark.filterwarnings("error::pytest.PytestUnhandledThreadExceptionWarning")
def test_a_log_that_cannot_be_read_is_left_to_whoever_opens_a_job(tmp_path: Path) -> None:
    log = SqliteJobLog.open(tmp_path)
    log.close()
    load_ahead(log, "anna", lambda: True).join()
