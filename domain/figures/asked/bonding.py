"""The least size of a main protective bonding conductor."""

from decimal import Decimal

from domain.edition import Edition
from domain.figures.asked.answer import FigureAnswer, NotAskableError, not_known, tabulated, worked_out
from domain.figures.asked.figure import Figure
from domain.figures.asked.given import Given
from domain.figures.asked.key import choice, number
from domain.figures.formulas.bonding import half_the_earthing_conductor
from domain.figures.formulas.rounding import written
from domain.figures.limits.conductors import size_not_under
from domain.figures.limits.loader import named_figure, table
from domain.figures.units import SQUARE_MILLIMETRE, SquareMillimetres

_LARGEST = Decimal(2000)
_NOT_PME = "not PME"
_SUPPLY = choice(
    "supply",
    "the kind of supply",
    {
        "PME": ("TN-C-S", "TN-C-S (PME)"),
        _NOT_PME: ("no PME", "non-PME", "TN-S", "TT", "other"),
    },
)
_NEUTRAL = number(
    "neutral", "size of the supply's neutral, where the supply is PME", SQUARE_MILLIMETRE, at_most=_LARGEST
)
_SIZE = number(
    "size",
    "size of the bonding on PME, instead of neutral=, to have the largest neutral",
    SQUARE_MILLIMETRE,
    at_most=_LARGEST,
)
_EARTHING = number(
    "earthing", "size the earthing conductor needs, where it is not", SQUARE_MILLIMETRE, at_most=_LARGEST
)


def _bonding(given: Given) -> FigureAnswer:
    if given.need(_SUPPLY) == _NOT_PME:
        given.refuse("neutral= counts where the supply is PME; give earthing=", _NEUTRAL)
        given.refuse("size= is turned round where the supply is PME", _SIZE)
        return _half(given.need(_EARTHING), given.edition)
    given.refuse("earthing= counts where the supply is not PME; give neutral=", _EARTHING)
    if given.one_of(_NEUTRAL, _SIZE) is _SIZE:
        return _largest_neutral(given.need(_SIZE), given.edition)
    return _by_neutral(given.need(_NEUTRAL), given.edition)


def _largest_neutral(size: Decimal, edition: Edition) -> FigureAnswer:
    """The table turned: the largest neutral that bonding of this size is enough for."""
    rows = table("main_bonding", edition).rows
    fitting = [row for row in rows if row.figures["at_least"].value <= size]
    if not fitting:
        raise NotAskableError(f"size={written(size)} is under {rows[0].figures['at_least'].shown}, the least on PME")
    up_to = fitting[-1].figures.get("neutral_up_to")
    if up_to is None:
        return not_known(
            "mm²", f"Main bonding of {written(size)} mm²", rows[0].source, because="enough for a neutral of any size"
        )
    return tabulated(up_to, f"Main bonding of {written(size)} mm² is enough for a neutral of up to")


def _by_neutral(neutral: Decimal, edition: Edition) -> FigureAnswer:
    row = [each for each in table("main_bonding", edition).rows if neutral > each.figures["neutral_over"].value][-1]
    up_to = row.figures.get("neutral_up_to")
    band = f"over {row.figures['neutral_over'].shown}" + (f" to {up_to.shown}" if up_to else "")
    says = f"PME, neutral of {written(neutral)} mm² ({band}), copper, at least"
    return tabulated(row.figures["at_least"], says, notes=("the distributor may ask for more",))


def _half(earthing: SquareMillimetres, edition: Edition) -> FigureAnswer:
    share, least, enough = (
        named_figure("main_bonding_not_pme", name, edition)
        for name in ("share of the earthing conductor", "at least", "need not exceed")
    )
    answer = worked_out(half_the_earthing_conductor(earthing, share, least, enough))
    assert answer.value is not None
    size = size_not_under(SquareMillimetres(answer.value), edition)
    made = () if size is None or size == answer.value else (f"next standard size {written(size)} mm²",)
    return answer.model_copy(update={"notes": (*made, "copper, or as good a conductor of another metal")})


BONDING = Figure(
    "bonding",
    "least size of a main protective bonding conductor, or on PME the largest neutral for one",
    "mm²",
    (_SUPPLY, _NEUTRAL, _EARTHING, _SIZE),
    (("supply=PME", "neutral=25"), ("supply=not PME", "earthing=16"), ("supply=PME", "size=16")),
    _bonding,
)
