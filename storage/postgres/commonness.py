"""Which words very many jobs hold, as the server counted a part of them when it last looked: so that nobody counts them anew.

Statistics of a column of words: pg_stats, in chapter 54 of PostgreSQL's documentation. A log that was never looked at has
none; then no word is known to be common, and all are asked of the index.
"""

import threading
from bisect import bisect_left
from collections.abc import Sequence
from typing import NamedTuple

from storage.postgres.log_server import LogServer

_TOLD = """
SELECT most_common_elems::text::text[], most_common_elem_freqs, reltuples
FROM pg_stats JOIN pg_class ON pg_class.oid = to_regclass('job_text')
WHERE schemaname = current_schema() AND tablename = 'job_text' AND attname = 'words'
"""
_SURELY = 2
"""A word that is thought to be in so many times as many jobs is in as many."""


class Lexeme(NamedTuple):
    """A word as the index has it, or how one begins."""

    word: str
    begun: bool = False


Either = tuple[Lexeme, ...]
"""One of them is enough."""


class Commonness:
    """What is known of how many jobs hold a word. Asked of the server once: a common word stays one."""

    def __init__(self, server: LogServer) -> None:
        self._server = server
        self._told: tuple[list[str], list[float]] | None = None
        self._turn = threading.Lock()

    def surely(self, either: Either, least: int) -> bool:
        """At least so many jobs hold one of these."""
        return any(self._about(lexeme) >= _SURELY * least for lexeme in either)

    def about(self, either: Either) -> float:
        """How many jobs hold one of these, as far as is known: no less than of what is common among them."""
        return sum(map(self._about, either))

    def _about(self, lexeme: Lexeme) -> float:
        words, jobs = self._known()
        at = bisect_left(words, lexeme.word)
        if not lexeme.begun:
            return jobs[at] if at < len(words) and words[at] == lexeme.word else 0.0
        most = 0.0
        while at < len(words) and words[at].startswith(lexeme.word):
            most, at = max(most, jobs[at]), at + 1
        return most

    def _known(self) -> tuple[Sequence[str], Sequence[float]]:
        with self._turn:
            if self._told is None:
                words, shares, jobs = self._server.first(_TOLD) or (None, None, 0)
                # After the shares come the least, the greatest and that of rows without any.
                held = sorted(zip(words or (), shares or (), strict=False))
                self._told = [word for word, _ in held], [share * max(jobs, 0) for _, share in held]
            return self._told
