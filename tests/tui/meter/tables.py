"""Tables as Markdown."""

from collections.abc import Iterable, Iterator, Sequence

Row = Sequence[str]


def table(head: Row, rows: Iterable[Row]) -> Iterator[str]:
    """A table, line by line."""
    yield _line(head)
    yield _line(["---"] * len(head))
    yield from (_line(row) for row in rows)


def _line(cells: Row) -> str:
    return f"| {' | '.join(cells)} |"


def yes(reached: bool) -> str:
    """Whether a figure was reached."""
    return "yes" if reached else "no"
