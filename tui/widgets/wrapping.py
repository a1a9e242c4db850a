"""Wraps text to a width without losing a letter, so that a cursor in the text can be found on the screen."""

from collections.abc import Iterator

from rich.cells import cell_len

Span = tuple[int, int]
"""Start and end of one shown line in the text; the blank or new line it broke at belongs to no line."""


def wrapped(text: str, width: int) -> list[Span]:
    """The lines a text takes, broken at blanks where there are any; at least one."""
    spans: list[Span] = []
    start = 0
    for paragraph in text.split("\n"):
        spans += _paragraph(text, start, start + len(paragraph), max(width, 1))
        start += len(paragraph) + 1
    return spans


def _paragraph(text: str, start: int, end: int, width: int) -> Iterator[Span]:
    while True:
        reach = _reach(text, start, end, width)
        if reach == end:
            yield start, end
            return
        blank = reach if text[reach] == " " else text.rfind(" ", start + 1, reach)
        if blank > start:
            yield start, blank
            start = blank + 1
        else:
            yield start, reach
            start = reach


def _reach(text: str, start: int, end: int, width: int) -> int:
    piece = text[start : min(end, start + width + 1)]
    if piece.isascii() and piece.isprintable():  # each letter is one cell: the usual case, told without counting
        return min(end, start + width)
    used = 0
    for at in range(start, end):
        used += cell_len(text[at])
        if used > width:
            return max(at, start + 1)
    return end


def line_of(spans: list[Span], cursor: int) -> int:
    """Which line a cursor in the text stands on."""
    return max((line for line, (start, _) in enumerate(spans) if start <= cursor), default=0)


def fitted(text: str, width: int) -> str:
    """The text on one line of a width, closed with … where it had to be cut."""
    line = text.replace("\n", " ")
    if cell_len(line) <= width:
        return line
    kept = line[: max(width - 1, 0)]
    while kept and cell_len(kept) > width - 1:
        kept = kept[:-1]
    return f"{kept}…"[: max(width, 0)]


def padded(text: str, width: int) -> str:
    """The text fitted and filled with blanks to exactly a width."""
    line = fitted(text, width)
    return line + " " * (width - cell_len(line))
