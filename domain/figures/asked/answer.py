"""What is answered when a figure is asked for."""

from decimal import Decimal

from domain.edition import Edition
from domain.figures.formulas.rounding import written
from domain.figures.formulas.working import Working
from domain.figures.limits.limit import Limit
from domain.source import Source, Trust
from domain.value import Value

NOT_KNOWN = "no limit known"
_WEAKEST_FIRST = (Trust.MEMORY, Trust.COMMON_PRACTICE, Trust.PUBLISHED)


class NotAskableError(Exception):
    """What was typed cannot be answered; the message is one sentence that names what is allowed."""


class FigureAnswer(Value):
    """A figure with its sum, the rules it follows, and what a person should know beside it."""

    value: Decimal | None
    """None where no figure is known; nothing is guessed."""
    unit: str
    working: str
    sources: tuple[Source, ...]
    notes: tuple[str, ...] = ()
    edition: Edition | None = None
    """The edition it was answered by."""

    @property
    def trust(self) -> Trust:
        """How far the figure can be trusted: as far as the weakest of what it rests on."""
        return next(trust for trust in _WEAKEST_FIRST if trust in {source.trust for source in self.sources})

    @property
    def source(self) -> str:
        """The standards and places in them."""
        return "; ".join(dict.fromkeys(source.named for source in self.sources))

    @property
    def seen_in(self) -> str:
        """The open publications the figures were read in."""
        return "; ".join(dict.fromkeys(source.seen_in for source in self.sources if source.seen_in))


def worked_out(working: Working | None, *sources: Source, notes: tuple[str, ...] = ()) -> FigureAnswer:
    """The answer a working gives, resting on its own source and these."""
    if working is None:
        raise NotAskableError("These figures lie outside what can be worked out; check each of them")
    own = (working.source,) if working.source else ()
    return FigureAnswer(
        value=Decimal(written(working.value)),
        unit=working.unit,
        working=working.sum,
        sources=_each_once(*own, *sources),
        notes=(*working.notes, *notes),
    )


def tabulated(limit: Limit, says: str, *sources: Source, notes: tuple[str, ...] = ()) -> FigureAnswer:
    """The answer a table gives; `says` names the row."""
    return FigureAnswer(
        value=limit.value,
        unit=limit.unit,
        working=f"{says}: {limit.shown}",
        sources=_each_once(limit.source, *sources),
        notes=notes,
    )


def not_known(
    unit: str, says: str, *sources: Source, notes: tuple[str, ...] = (), because: str = NOT_KNOWN
) -> FigureAnswer:
    """There is no figure; `says` tells which table was looked in, and the first note why there is none."""
    return FigureAnswer(value=None, unit=unit, working=says, sources=sources, notes=(because, *notes))


def _each_once(*sources: Source) -> tuple[Source, ...]:
    return tuple(dict.fromkeys(sources))
