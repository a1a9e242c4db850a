"""The witness of a log says how far it was kept, whatever became of single lines of it."""

from collections.abc import Callable
from pathlib import Path

import pytest

from domain.forms.form_set import FormSet
from storage.ledger import LedgerEnd, end_of
from storage.opening import open_as_it_is
from storage.sqlite_job_log import SqliteJobLog
from storage.witness import WITNESS, Account, Seen, Witness, account_in
from storage.witnessing import disagreement, log_of
from tests.builders import AT, fresh
from tests.storage.begun import put_begun_log

LINE = 192
BEGUN = Seen(3, "aa", "")


def witnessed(home: Path, *seen: Seen, begun: Seen = BEGUN) -> None:
    """A witness of the log `this` begun at a line, with what it saw since."""
    witness = Witness.begin(home, "this", 7, begun)
    witness.saw(seen)
    witness.close()


def test_a_witness_tells_the_log_its_layout_where_it_began_and_what_it_saw_the_newest_last(tmp_path: Path) -> None:
    witnessed(tmp_path, Seen(4, "bb", "A-0001"), Seen(5, "cc", "A-0002"))
    account = account_in(tmp_path)
    seen = (BEGUN, Seen(4, "bb", "A-0001"), Seen(5, "cc", "A-0002"))
    assert account == Account("this", 7, 3, seen)
    assert account.end == seen[-1]
    assert [path.name for path in tmp_path.iterdir()] == [WITNESS]


@pytest.mark.parametrize(("count", "oldest"), [(63, 0), (64, 1), (200, 137)])
def test_the_last_sixty_four_entries_are_held(tmp_path: Path, count: int, oldest: int) -> None:
    witnessed(tmp_path, *(Seen(at, f"{at:x}", "A-0001") for at in range(1, count + 1)), begun=Seen(0, "", ""))
    account = account_in(tmp_path)
    assert account
    assert [each.seq for each in account.seen] == [*range(oldest, count + 1)]
    assert (tmp_path / WITNESS).stat().st_size == LINE * (1 + 64)


def test_one_begun_anew_takes_the_place_of_any_that_is_there(tmp_path: Path) -> None:
    witnessed(tmp_path, Seen(9, "ff", "A-0009"))
    (tmp_path / f".{WITNESS}.part").write_bytes(b"left by a program that ended")
    witnessed(tmp_path, begun=Seen(2, "bb", ""))
    assert account_in(tmp_path) == Account("this", 7, 2, (Seen(2, "bb", ""),))


@pytest.mark.parametrize(
    ("about", "told"),
    [
        ("A-0001", "A-0001"),
        ("x" * 40, "x" * 40),
        ("x" * 41, "x" * 40),
        ("a name with blanks at its end  ", "a name with blanks at its end  "),
    ],
)
def test_forty_letters_of_what_an_entry_is_about_are_kept(tmp_path: Path, about: str, told: str) -> None:
    witnessed(tmp_path, Seen(4, "b" * 64, about))
    account = account_in(tmp_path)
    assert account
    assert account.end.about == told


def test_of_letters_that_take_more_room_as_many_are_kept_as_the_line_has(tmp_path: Path) -> None:
    """Each is written as six signs; the line goes on to its last place and the next one stays whole."""
    witnessed(tmp_path, Seen(4, "b" * 64, "ż" * 40), Seen(5, "c" * 64, "A-0001"))
    account = account_in(tmp_path)
    assert account
    assert [each.about for each in account.seen] == ["", "ż" * 13, "A-0001"]
    assert (tmp_path / WITNESS).read_bytes()[LINE * 6 - 1 : LINE * 6] == b"\n"


@pytest.mark.parametrize(
    ("line", "seen"),
    [(0, None), (5, (3, 5)), (6, (3, 4)), (7, (3, 4, 5))],
    ids=["what log it is", "the first it saw", "the last it saw", "one that was never written"],
)
def test_a_line_that_was_damaged_is_passed_over_and_without_the_first_there_is_no_witness(
    tmp_path: Path, line: int, seen: tuple[int, ...] | None
) -> None:
    witnessed(tmp_path, Seen(4, "bb", "A-0001"), Seen(5, "cc", "A-0002"))
    held = bytearray((tmp_path / WITNESS).read_bytes().ljust(LINE * 65, b"\0"))
    held[LINE * line + 8] ^= 1
    (tmp_path / WITNESS).write_bytes(held)
    account = account_in(tmp_path)
    assert (account and tuple(each.seq for each in account.seen)) == seen


def test_no_file_an_empty_one_and_a_log_without_an_entry_are_no_witness(tmp_path: Path) -> None:
    assert account_in(tmp_path) is None
    assert Witness.opened(tmp_path) is None
    (tmp_path / WITNESS).write_bytes(b"")
    assert account_in(tmp_path) is None
    witnessed(tmp_path)
    first = (tmp_path / WITNESS).read_bytes()[:LINE]
    (tmp_path / WITNESS).write_bytes(first)
    assert account_in(tmp_path) is None


def seen_at(end: LedgerEnd, *about: str) -> tuple[Seen, ...]:
    """The end of a log, and what a witness saw after it."""
    return (
        Seen(end.seq, end.head.hex(), "A-0001"),
        *(Seen(end.seq + at, "ff", each) for at, each in enumerate(about, 1)),
    )


MISSING = "missing from the job log ({}): the file of its latest changes was cut, altered or deleted"


@pytest.mark.parametrize(
    ("account", "says"),
    [
        pytest.param(lambda log, end: None, "", id="no witness"),
        pytest.param(lambda log, end: Account(log, 1, 0, seen_at(end)), "", id="the log as it was kept last"),
        pytest.param(lambda log, end: Account("another", 1, 0, seen_at(end)), "is not the one that was kept here: another was put in its place.", id="another log"),
        pytest.param(lambda log, end: Account(log, 1, 0, (Seen(end.seq, "ff", ""),)), "was rewritten by another program since it was kept here.", id="another head"),
        pytest.param(lambda log, end: Account(log, 1, 0, (Seen(1, "ff", ""),)), "was rewritten by another program since it was kept here.", id="another head long ago"),
        pytest.param(lambda log, end: Account(log, 1, 0, (Seen(0, "ff", ""),)), "", id="a witness begun with an empty log"),
        pytest.param(lambda log, end: Account(log, 1, 0, seen_at(end, "A-0007")), "The last change that was kept is " + MISSING.format("A-0007"), id="one change missing"),
        pytest.param(lambda log, end: Account(log, 1, 0, seen_at(end, "A-0007", "A-0002", "A-0007")), "The last 3 changes that were kept are " + MISSING.format("A-0007, A-0002"), id="several of the same job"),
        pytest.param(lambda log, end: Account(log, 1, 0, seen_at(end, *"abcde")), MISSING.format("a, b, c, d, e"), id="of five jobs"),
        pytest.param(lambda log, end: Account(log, 1, 0, seen_at(end, *"abcdefg")), MISSING.format("a, b, c, d, e and 2 more"), id="of seven jobs"),
    ],
)  # fmt: skip
def test_a_log_that_is_not_what_was_kept_last_is_told_by_what_is_missing(
    home: Path, account: Callable[[str, LedgerEnd], Account | None], says: str
) -> None:
    put_begun_log(home)
    log = SqliteJobLog.open(home)
    for name in ("Zoë Merryweather", "Bertram Quill"):
        log.create(fresh(FormSet.EIC), who=name, at=AT)
    log.close()
    file = open_as_it_is(home)
    try:
        said = disagreement(file, account(log_of(file), end_of(file)))
    finally:
        file.close()
    assert says in said
    assert bool(said) is bool(says)
    assert not said or "nothing is kept until that is settled" in said
