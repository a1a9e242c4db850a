"""What a measured Zs is held against, and the sentence when it does not pass."""

from typing import NamedTuple

from domain.checks.shared.phrases import phrase
from domain.edition import Edition
from domain.figures.formulas.loop import cold_limit, highest_cold_reading
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import named_figure
from domain.figures.units import Milliamperes, Ohms, Seconds
from domain.job.reading import Meaning, Reading
from domain.source import Source, Trust

DESIGN = Source(standard="The design", table="maximum permitted Zs of this circuit", trust=Trust.PUBLISHED)


class AppliedLimit(NamedTuple):
    """A limit as it is applied to a reading."""

    at_most: Ohms
    rule: str
    """Which words follow its figure in a sentence."""
    source: Source
    named: str = ""
    """What it is a limit of: the device, or the residual current in mA."""
    caution: str = ""
    tabulated: Limit[Ohms] | None = None
    """The figure of the table that a cold limit follows from."""
    factor: Limit | None = None
    within: Limit[Seconds] | None = None
    """The disconnection time it is for, where the device has one for each."""

    @property
    def words(self) -> str:
        """What the limit is, to follow its figure in a sentence."""
        if self.tabulated and self.factor:
            figures = {"factor": self.factor.shown, "tabulated": self.tabulated.shown, "caution": self.caution}
            if self.within:
                return phrase("limit-cold-in-time", device=self.named, time=self.within.shown, **figures)
            return phrase("limit-cold", device=self.named, **figures)
        return phrase(self.rule, idn=self.named, caution=self.caution)

    @property
    def working(self) -> str:
        """How the limit follows from the figure of a table; "" where it stands there itself."""
        return highest_cold_reading(self.tabulated, self.factor).sum if self.tabulated and self.factor else ""

    @property
    def shown(self) -> str:
        """The figure with its unit."""
        return f"{self.at_most} Ω"

    def holds(self, zs: Reading[Ohms]) -> bool:
        """The reading shows a value at or under the limit."""
        return zs.meaning is not Meaning.OVER and zs.value is not None and zs.value <= self.at_most

    def excess(self, zs: Reading[Ohms]) -> str:
        """How a reading misses the limit, in words."""
        name = "over-range" if zs.meaning is Meaning.OVER else "over-limit"
        return phrase(name, zs=zs.shown, limit=self.shown, rule=self.words)


def limit_for_cold_reading(
    tabulated: Limit[Ohms], device: str, within: Limit[Seconds] | None, edition: Edition
) -> AppliedLimit:
    """The limit for a reading taken cold, from the figure of the table; `within` is named where it matters."""
    factor = named_figure("loop", "cold reading factor", edition)
    return AppliedLimit(
        at_most=cold_limit(tabulated, factor),
        rule="limit-cold",
        source=tabulated.source,
        named=device,
        caution=tabulated.caution,
        tabulated=tabulated,
        factor=factor,
        within=within,
    )


def limit_by_design(permitted: Ohms) -> AppliedLimit:
    """The limit a designer typed, held against as it stands."""
    return AppliedLimit(at_most=permitted, rule="limit-of-design", source=DESIGN)


def limit_by_rcd(limit: Limit[Ohms], idn: Milliamperes) -> AppliedLimit:
    """The limit where an RCD gives fault protection."""
    return AppliedLimit(
        at_most=limit.value,
        rule="limit-by-rcd",
        source=limit.source,
        named=f"{idn.normalize():f}",
        caution=limit.caution,
    )
