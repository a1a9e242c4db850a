"""How wide the columns of a list are: each what its texts need, as far as the width goes."""

from collections.abc import Sequence

from rich.cells import cell_len

Shape = tuple[tuple[int, int], ...]
"""Of each cell of a row, its width and the least it takes."""


def column_widths(shape: Shape, columns: Sequence[Sequence[str]], width: int) -> list[int]:
    """The widths of the columns of a list; one blank stands before each, and none behind the last."""
    wide = [fixed for fixed, _ in shape]
    shares = [column for column, (fixed, _) in enumerate(shape) if not fixed]
    # The column that only takes what is left stands last among those that share, and gets the rest.
    shares.sort(key=lambda column: not shape[column][1])
    room = max(width - sum(wide) - len(wide), 1)
    least = [shape[column][1] or 1 for column in shares]
    needed = [needed_by(columns[column]) for column in shares]
    for column, share in zip(shares, shared_out(least, needed, room) if shares else (), strict=True):
        wide[column] = share
    return wide


def shared_out(least: Sequence[int], needed: Sequence[int], room: int) -> list[int]:
    """The widths of columns that share a room: each its least, then more to whichever lacks most; what is left to the last.

    Where the room is less than the least of all together, the last ones go short.
    """
    widths: list[int] = []
    left = room
    for each in least:
        widths.append(min(each, max(left, 0)))
        left -= each
    for _ in range(max(left, 0)):
        lacks = [need - width for need, width in zip(needed, widths, strict=True)]
        at = max(range(len(lacks)), key=lambda column: lacks[column])
        widths[at if lacks[at] > 0 else -1] += 1
    return widths


def needed_by(texts: Sequence[str]) -> int:
    """The width at which none of these texts wraps."""
    return max((cell_len(text) for text in texts), default=0)
