"""The letters of a log, chosen once: a number that somebody was given is never read otherwise."""

from collections.abc import Sequence
from collections.abc import Set as AbstractSet

from domain.job.job_number import is_prefix
from domain.log.job_log import JobLogError
from domain.log.store import Store
from domain.log.use_cases.out_with import exchange_of


def begin_numbers(store: Store, prefix: str) -> str:
    """Have the numbers of a log begin with these letters; why not, where they cannot."""
    if not is_prefix(prefix):
        return f"Numbers begin with one to four letters from A to Z; not {prefix!r}."
    if exchange_of(store) and prefix != store.numbering().prefix:
        return "The letters of an office and its laptops stay: what begins with them is known by them to all."
    with store.transaction():
        if store.begin_numbers(prefix):
            return ""
        now = store.numbering()
    if now.prefix == prefix:
        return ""
    if now.last:
        return f"The last number given is {now.last}; letters are chosen before the first, and stay."
    return f"Numbers that begin with {prefix} were given in this log before it was restored; choose other letters."


def letters_after(name: str, used: Sequence[str], known: AbstractSet[str]) -> str:
    """Letters of the same laptop that were not used yet: HE, HEA, HEB and so on."""
    root = min((each for each in used if name.startswith(each)), key=len, default=name)
    for letter in "ABCDEFGHIJKLMNOPQRSTUVWXYZ":
        if f"{root}{letter}" not in {*used, *known, name} and is_prefix(f"{root}{letter}"):
            return f"{root}{letter}"
    raise JobLogError(
        f"There are no letters left that begin with {root}; have the office make a new file for this laptop."
    )
