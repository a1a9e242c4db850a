"""How soon a fault must be cleared, and which circuits the short times hold for."""

from functools import cache

from domain.edition import Edition
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import named_figure, table
from domain.figures.units import AMPERE, SECOND, Amperes, Seconds, Volts


@cache
def longest_time(system: str, circuit: str, u0: Volts, edition: Edition) -> Limit[Seconds] | None:
    """The longest disconnection time: `system` TN or TT, `circuit` final or distribution; None outside the table."""
    for row in table("disconnection_times", edition).rows:
        if (row.texts["system"], row.texts["circuit"]) == (system, circuit):
            up_to = row.figures.get("u0_up_to")
            if row.figures["u0_above"].value < u0 and (up_to is None or u0 <= up_to.value):
                return row.figures["at_most"].in_unit(SECOND)
    return None


def short_time_with_sockets(edition: Edition) -> Limit[Amperes]:
    """Up to this rating a final circuit with socket-outlets has the short time."""
    return named_figure("final_circuit_scope", "with socket-outlets, up to", edition).in_unit(AMPERE)


def short_time_fixed_only(edition: Edition) -> Limit[Amperes]:
    """Up to this rating a final circuit of fixed equipment alone has the short time."""
    return named_figure("final_circuit_scope", "fixed equipment only, up to", edition).in_unit(AMPERE)
