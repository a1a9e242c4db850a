"""The words that jobs hold, kept so that a word typed with one letter wrong finds the one that was meant."""

import json
from collections.abc import Mapping

from domain.log.spelling import heard_gaps_of
from domain.misspelling import may_be_misspelt
from storage.log_file import LogFile

_NAMED_MAX = 512
"""So many words begun alike are named to the index; more are left to it."""
_LISTED = 4
"""Words that begin with so many letters are kept."""


def learn(file: LogFile, texts: Mapping[str, str]) -> None:
    """Keep the words of a job that are new to the log. Call it inside a write."""
    words = {word for name in ("client", "place", "other") for word in texts[name].split()}
    engineers = {facet for facet in texts["facets"].split() if facet.startswith("ze")}
    listed = sorted(word for word in words | engineers if is_listed(word))
    new = file.run(
        "INSERT OR IGNORE INTO term (word) SELECT value FROM json_each(?) RETURNING word", (json.dumps(listed),)
    )
    gaps = sorted(
        (gap, word) for (word,) in new if word in words and may_be_misspelt(word) for gap in heard_gaps_of(word)
    )
    if gaps:
        file.run(
            "INSERT OR IGNORE INTO near (gap, word) SELECT value ->> 0, value ->> 1 FROM json_each(?)",
            (json.dumps(gaps),),
        )


def is_listed(word: str) -> bool:
    """The word is kept, and with it every other that begins with the same four letters."""
    return len(word) >= _LISTED and word[:_LISTED].isalpha()


def words_begun(file: LogFile, beginning: str) -> tuple[str, ...] | None:
    """The words of the log that begin so; None where they are not all kept, or are too many to name."""
    if not is_listed(beginning):
        return None
    rows = file.run(
        "SELECT word FROM term WHERE word > ? AND word < ? LIMIT ?",
        (beginning, f"{beginning}\U0010ffff", _NAMED_MAX + 1),
    )
    return tuple(word for (word,) in rows) if len(rows) <= _NAMED_MAX else None


def near(file: LogFile, word: str) -> tuple[str, ...]:
    """Words that share a gap with one."""
    gaps = json.dumps(sorted(heard_gaps_of(word)))
    rows = file.run("SELECT DISTINCT word FROM near WHERE gap IN (SELECT value FROM json_each(?))", (gaps,))
    return tuple(other for (other,) in rows)
