"""The most that supplementary bonding of a medical location may read."""

from decimal import Decimal

from domain.figures.asked.answer import FigureAnswer, tabulated
from domain.figures.asked.figure import Figure
from domain.figures.asked.given import Given
from domain.figures.asked.key import choice, number
from domain.figures.formulas.rounding import written
from domain.figures.limits.loader import named_figure
from domain.figures.units import OHM

_GROUPS = ("1", "2")
_GROUP = choice("group", "the group of the medical location, as those who use it say", dict.fromkeys(_GROUPS, ()))
_READING = number("reading", "what was read between the bonding bar and a part", OHM, at_most=Decimal(1000))
_BESIDE = (
    "between the equipotential bonding bar and the earth terminal of a socket-outlet or fixed equipment, or an extraneous part",
    "group 0 has no figure of its own",
)


def _medical_bonding(given: Given) -> FigureAnswer:
    limit = named_figure("medical_bonding", f"group {given.need(_GROUP)}", given.edition)
    reading = given.maybe(_READING)
    if reading is None:
        return tabulated(limit, f"Medical location of group {given.need(_GROUP)}, at most", notes=_BESIDE)
    if reading > limit.value:
        kept = [
            each for each in _GROUPS if reading <= named_figure("medical_bonding", f"group {each}", given.edition).value
        ]
        also = f"; it would do in group {kept[0]}" if kept else ""
        verdict = f"{written(reading)} Ω is over it{also}"
    else:
        verdict = f"{written(reading)} Ω is within it"
    return tabulated(limit, f"Medical location of group {given.need(_GROUP)}, at most", notes=(verdict, *_BESIDE))


MEDICAL_BONDING = Figure(
    "medical-bonding",
    "most that supplementary bonding of a medical location may read",
    "Ω",
    (_GROUP, _READING),
    (("group=1",), ("group=2", "reading=0.14")),
    _medical_bonding,
)
