"""How soon a fault must be cleared."""

from decimal import Decimal

from domain.figures.asked.answer import FigureAnswer, NotAskableError, not_known, tabulated
from domain.figures.asked.figure import Figure
from domain.figures.asked.given import Given
from domain.figures.asked.key import choice, number
from domain.figures.formulas.rounding import written
from domain.figures.limits.disconnection import longest_time, short_time_fixed_only, short_time_with_sockets
from domain.figures.limits.loader import named_figure, table
from domain.figures.units import AMPERE, SECOND, VOLT

_REDUCED = "reduced low voltage"
_SYSTEM = choice(
    "system",
    "the earthing system",
    {"TN": (), "TN-S": (), "TN-C-S": ("PME",), "TN-C": (), "TT": (), _REDUCED: ("110 V CTE", "RLV")},
)
_U0 = number("u0", "nominal voltage to earth", VOLT, at_most=Decimal(1000), default="230 V")
_CIRCUIT = choice(
    "circuit",
    "the kind of circuit",
    {"final": ("final circuit",), "distribution": ("distribution circuit", "sub-main", "submain")},
)
_RATING = number("rating", "rated current of the circuit", AMPERE, at_most=Decimal(10000))
_SOCKETS = choice(
    "sockets", "whether it supplies socket-outlets", {"yes": ("y", "true", "1"), "no": ("n", "false", "0", "fixed")}
)
_TIME = number(
    "time", "a time to clear, instead of u0=, to have the voltages it holds for", SECOND, at_most=Decimal(60)
)


def _disconnection(given: Given) -> FigureAnswer:
    system, nominal = given.need(_SYSTEM), named_figure("loop", "U0", given.edition)
    if given.has(_TIME):
        given.refuse("time= asks for the voltage", _U0)
        return _highest_voltage(given, system)
    u0 = given.get(_U0, nominal.value)
    if system == _REDUCED:
        return _reduced(given, u0)
    group = "TT" if system == "TT" else "TN"
    kind, why = _kind(given)
    limit = longest_time(group, kind, u0, given.edition)
    if limit is None:
        return not_known(
            "s",
            f"Table 41.1 starts above {_lowest(given)} V to earth",
            table("disconnection_times", given.edition).source,
        )
    says = f"{system}, {written(u0)} V to earth, {why}, at most"
    return tabulated(limit, says, notes=_beside(group, kind))


def _highest_voltage(given: Given, system: str) -> FigureAnswer:
    """The table turned: the highest voltage to earth at which the time is still allowed."""
    time = given.need(_TIME)
    if system == _REDUCED:
        raise NotAskableError(f"{_REDUCED} has one voltage and one time, so that no time leads back to a voltage")
    group, (kind, why) = "TT" if system == "TT" else "TN", _kind(given)
    rows = [
        row
        for row in table("disconnection_times", given.edition).rows
        if (row.texts["system"], row.texts["circuit"]) == (group, kind)
    ]
    allowed = [row for row in rows if row.figures["at_most"].value >= time]
    if not allowed:
        longest = max((row.figures["at_most"] for row in rows), key=lambda limit: limit.value)
        raise NotAskableError(f"{system}, {why}: no voltage allows {written(time)} s, the longest is {longest.shown}")
    highest = max(allowed, key=lambda row: row.figures["u0_above"].value)
    says = f"{system}, {why}, {written(time)} s is allowed"
    if up_to := highest.figures.get("u0_up_to"):
        return tabulated(up_to, f"{says} up to", notes=_beside(group, kind))
    source = highest.figures["at_most"].source
    return not_known(
        "V", f"{says} at any voltage above {_lowest(given)} V to earth", source, because="no voltage ends it"
    )


def _reduced(given: Given, u0: Decimal) -> FigureAnswer:
    limit = longest_time(_REDUCED, "any", u0, given.edition)
    if limit is None:
        return not_known(
            "s",
            f"No time is known at or below {_lowest(given)} V to earth",
            table("disconnection_times", given.edition).source,
        )
    return tabulated(limit, f"{_REDUCED}, any circuit, at most")


def _lowest(given: Given) -> str:
    return written(min(row.figures["u0_above"].value for row in table("disconnection_times", given.edition).rows))


def _kind(given: Given) -> tuple[str, str]:
    """Which row holds for the circuit, and why."""
    if given.need(_CIRCUIT) == "distribution":
        return "distribution", "distribution circuit"
    with_sockets, fixed = short_time_with_sockets(given.edition), short_time_fixed_only(given.edition)
    rating, sockets = given.maybe(_RATING), given.maybe(_SOCKETS)
    scope = f"up to {with_sockets.shown} with socket-outlets, up to {fixed.shown} with fixed equipment alone"
    if rating is None:
        return "final", f"final circuit ({scope})"
    if sockets is None and fixed.value < rating <= with_sockets.value:
        raise NotAskableError(
            f"a final circuit of {written(rating)} A needs sockets=yes or sockets=no: the short times hold {scope}"
        )
    highest = with_sockets if sockets == "yes" else fixed
    if rating <= highest.value:
        return "final", f"final circuit of {written(rating)} A ({scope})"
    return "distribution", f"final circuit of {written(rating)} A, outside the short times ({scope})"


def _beside(group: str, kind: str) -> tuple[str, ...]:
    if group == "TT" and kind == "final":
        return ("where an overcurrent device protects and all extraneous parts are bonded, the TN times may be used",)
    return ()


DISCONNECTION = Figure(
    "disconnection",
    "longest disconnection time",
    "s",
    (_SYSTEM, _U0, _CIRCUIT, _RATING, _SOCKETS, _TIME),
    (("system=TN-C-S", "u0=230", "circuit=final", "rating=32", "sockets=yes"), ("system=TT", "circuit=distribution")),
    _disconnection,
    (("system=TN-S", "circuit=final", "time=0.4"),),
)
