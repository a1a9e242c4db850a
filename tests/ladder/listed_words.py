"""The words of a log written as the program lists them."""

from domain.log.spelling import heard_gaps_of
from domain.misspelling import may_be_misspelt
from storage.driver import Connection
from storage.vocabulary import is_listed


def is_engineer(each: str) -> bool:
    """A name of an engineer, which nobody misspells."""
    return each.startswith("ze")


def write_words(log: Connection, words: set[str]) -> None:
    """Write the words by which jobs are found, in the place of any there are."""
    known = sorted(each for each in words if is_listed(each))
    log.execute("BEGIN")
    log.execute("DELETE FROM term")
    log.execute("DELETE FROM near")
    log.executemany("INSERT OR IGNORE INTO term (word) VALUES (?)", [(each,) for each in known])
    # A text out of JSON, as the program writes them, ends at a letter of no width.
    near = (each for each in known if may_be_misspelt(each) and not is_engineer(each))
    gaps = ((gap.partition("\0")[0], each) for each in near for gap in heard_gaps_of(each))
    log.executemany("INSERT OR IGNORE INTO near (gap, word) VALUES (?, ?)", gaps)
    log.execute("COMMIT")
