"""A limit given in a unit is in that unit in its table, so that what the type checker is told is so."""

from decimal import Decimal

import pytest

from domain.edition import Edition
from domain.figures.limits.earth_fault import rcd_limit
from domain.figures.limits.loader import named_figure
from domain.figures.units import OHM, VOLT, Milliamperes


@pytest.mark.parametrize("edition", list(Edition)[1:], ids=str)
def test_a_figure_is_given_in_the_unit_of_its_table_and_in_no_other(edition: Edition) -> None:
    nominal = named_figure("loop", "U0", edition)
    assert nominal.in_unit(VOLT) is nominal
    with pytest.raises(ValueError, match="230 V is not in Ω"):
        nominal.in_unit(OHM)
    limit = rcd_limit(Milliamperes(Decimal(30)), edition)
    assert limit
    assert limit.unit == OHM.sign
