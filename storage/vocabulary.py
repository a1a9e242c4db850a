"""The words that jobs hold, kept so that a word typed with one letter wrong finds the one that was meant."""

import json
from collections.abc import Iterable, Mapping

from domain.spelling import gaps_of, may_be_misspelt
from storage.log_file import LogFile
from storage.search import quoted


def learn(file: LogFile, texts: Mapping[str, str]) -> None:
    """Keep the words of a job that are new to the log. Call it inside a write."""
    words = {word for name in ("client", "place", "other") for word in texts[name].split() if may_be_misspelt(word)}
    new = file.run(
        "INSERT OR IGNORE INTO term (word) SELECT value FROM json_each(?) RETURNING word", (json.dumps(sorted(words)),)
    )
    if new:
        gaps = sorted((gap, word) for (word,) in new for gap in gaps_of(word))
        file.run(
            "INSERT OR IGNORE INTO near (gap, word) SELECT value ->> 0, value ->> 1 FROM json_each(?)",
            (json.dumps(gaps),),
        )


def knows(file: LogFile, word: str, *, begun: bool) -> bool:
    """Some job holds the word, or with `begun` one that begins so."""
    match = f"{{client place other}} : {quoted(word)}{' *' if begun else ''}"
    return file.first("SELECT 1 FROM job_fts WHERE job_fts MATCH ? LIMIT 1", (match,)) is not None


def near(file: LogFile, word: str) -> Iterable[tuple[str, int]]:
    """Words that share a gap with one, each with the number of jobs that hold it."""
    rows = file.run(
        "SELECT word, coalesce((SELECT doc FROM job_vocabulary WHERE term = word), 0) FROM"
        " (SELECT DISTINCT word FROM near WHERE gap IN (SELECT value FROM json_each(?)))",
        (json.dumps(sorted(gaps_of(word))),),
    )
    return ((other, jobs) for other, jobs in rows)
