"""What a measured Zs is held against, and the sentence when it does not pass."""

from decimal import Decimal
from typing import NamedTuple

from domain.edition import Edition
from domain.figures.formulas.loop import cold_limit, highest_cold_reading
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import named_figure
from domain.job.reading import Meaning, Reading
from domain.source import Source, Trust

DESIGN = Source(standard="The design", table="maximum permitted Zs of this circuit", trust=Trust.PUBLISHED)


class AppliedLimit(NamedTuple):
    """A limit as it is applied to a reading."""

    at_most: Decimal
    words: str
    """What the limit is, to follow its figure in a sentence."""
    source: Source
    tabulated: Limit | None = None
    """The figure of the table that a cold limit follows from."""
    factor: Limit | None = None

    @property
    def working(self) -> str:
        """How the limit follows from the figure of a table; "" where it stands there itself."""
        return highest_cold_reading(self.tabulated, self.factor).sum if self.tabulated and self.factor else ""

    @property
    def shown(self) -> str:
        """The figure with its unit."""
        return f"{self.at_most} Ω"

    def holds(self, zs: Reading) -> bool:
        """The reading shows a value at or under the limit."""
        return zs.meaning is not Meaning.OVER and zs.value is not None and zs.value <= self.at_most

    def excess(self, zs: Reading) -> str:
        """How a reading misses the limit, in words."""
        if zs.meaning is Meaning.OVER:
            return f"{zs.shown} Ω is over the range of the instrument, so nothing within {self.shown} is shown, {self.words}"
        return f"{zs.shown} Ω is over {self.shown}, {self.words}"


def cold_bar(tabulated: Limit, device: str, within: Limit | None, edition: Edition) -> AppliedLimit:
    """The limit for a reading taken cold, from the figure of the table; `within` is named where it matters."""
    factor = named_figure("loop", "cold reading factor", edition)
    time = f" to open within {within.shown}" if within else ""
    return AppliedLimit(
        at_most=cold_limit(tabulated, factor),
        words=f"the limit for a cold reading on a {device}{time} ({factor.shown} × {tabulated.shown}){tabulated.caution}",
        source=tabulated.source,
        tabulated=tabulated,
        factor=factor,
    )


def design_bar(permitted: Decimal) -> AppliedLimit:
    """The limit a designer typed, held against as it stands."""
    return AppliedLimit(at_most=permitted, words="the most the design permits on this circuit", source=DESIGN)


def residual_bar(limit: Limit, idn: Decimal) -> AppliedLimit:
    """The limit where an RCD gives fault protection."""
    return AppliedLimit(
        at_most=limit.value,
        words=f"the limit where a {idn.normalize():f} mA RCD gives fault protection{limit.caution}",
        source=limit.source,
    )
