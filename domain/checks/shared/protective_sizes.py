"""Protective conductors by selection, as Table 54.7 has them."""

from functools import lru_cache

from domain.edition import Edition
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import table
from domain.figures.units import SquareMillimetres


@lru_cache(maxsize=512)
def by_table(line: SquareMillimetres, edition: Edition) -> Limit:
    """The smallest cpc by selection, for a line conductor of this size."""
    for row in table("min_cpc", edition).rows:
        up_to, share = row.figures.get("line_up_to"), row.figures.get("share")
        if row.figures["line_over"].value < line and (up_to is None or line <= up_to.value):
            fixed = row.figures.get("at_least")
            if fixed:
                return fixed
            assert share
            return Limit(value=line * share.value, unit="mm²", source=row.source)
    raise AssertionError("the table of protective conductors has a row for every size above nought")
