"""What published guidance says of the like of an observation, in the few rows beside the form it is typed in."""

from collections.abc import Mapping

from rich.text import Text

from domain.inspection.codes.guidance import Guidance
from domain.inspection.codes.likeness import MOST, guidance_for
from tui import theme

_NOTHING_YET = "Published guidance on the like of it stands here once the hands rest."
_NOTHING_LIKE = "No published guidance is known for these words; judge by what the codes mean."
_CODES = 9
"""Columns for the codes of an entry: `C1 or C2`."""


def guidance_beside(typed: Mapping[str, str], known: Guidance | None = None, raised_as: str = "") -> Text:
    """The three entries most like what is typed, by its words and items: code, kind, source, and what the first hangs on.

    `known` is on the very failure that the observation was raised from, and comes first, whatever the words; while they are
    those it was raised as, it stands alone.
    """
    like = _like(typed, known, raised_as)
    if not like:
        return Text(_NOTHING_LIKE if typed["finding"].strip() else _NOTHING_YET, style=theme.QUIET)
    first, *others = like
    rows = [_row(first), Text(f"{first.doubts} {first.says}".strip()), *map(_row, others)]
    return Text("\n").join(rows)


def words_taken(typed: Mapping[str, str], known: Guidance | None = None, raised_as: str = "") -> Mapping[str, str]:
    """What was found in the words of the first entry beside the form, where letters were typed; its code stays the person's own."""
    like = _like(typed, known, raised_as) if typed["finding"].strip() else ()
    return {"finding": like[0].about} if like else {}


def _like(typed: Mapping[str, str], known: Guidance | None, raised_as: str) -> tuple[Guidance, ...]:
    like = guidance_for(typed["finding"], items_in(typed["items"]))
    if known is None:
        return like
    others = () if typed["finding"] == raised_as else like
    return (known, *(each for each in others if each != known))[:MOST]


def items_in(typed: str) -> tuple[str, ...]:
    """The inspection items named in a line, such as `4.4, 5.12a`."""
    return tuple(typed.replace(",", " ").split())


def _row(entry: Guidance) -> Text:
    codes = "no code" if not entry.commonly else " or ".join(entry.commonly)
    doubt = ", contested" if entry.is_contested else ""
    return Text.assemble((codes.ljust(_CODES), theme.HEAD), entry.about, (f" ({entry.told_by}{doubt})", theme.QUIET))
