"""The highest Zs of a protective device, from the tables."""

from functools import lru_cache

from domain.edition import Edition
from domain.figures.limits.device import breaker_type_in, has_type, kind_of, standard_in
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import table
from domain.figures.units import OHM, Amperes, Milliamperes, Ohms
from domain.value import Value

_TABLES = {
    "BS EN 60898": "zs_breakers",
    "BS EN 61009": "zs_breakers",
    "BS 3871": "zs_bs3871",
    "BS 88-2": "zs_bs88_2",
    "BS 88-2.2": "zs_bs88_2_2",
    "BS 88-3": "zs_bs88_3",
    "BS 88-6": "zs_bs88_2_2",
    "BS 3036": "zs_bs3036",
    "BS 1361": "zs_bs1361",
    "BS 1362": "zs_bs1362",
}


class DeviceLimits(Value):
    """What the tables say of one device; None where they have no figure for it."""

    device: str
    """As a person would say it: BS EN 60898 type C 20 A breaker."""
    short_time: Limit[Ohms] | None
    """For the time a final circuit within the scope of Table 41.1 has at 230 V."""
    long_time: Limit[Ohms] | None
    """For the time of distribution circuits and final circuits outside that scope."""

    @property
    def depends_on_time(self) -> bool:
        """The two times have two figures."""
        return self.short_time is not None and self.long_time is not None and self.short_time != self.long_time


@lru_cache(maxsize=512)
def device_limits(standard: str, device_type: str, rating: Amperes, edition: Edition) -> DeviceLimits | None:
    """The limits of a device as typed; None where no table has a row for it. Nothing is interpolated."""
    known = standard_in(standard)
    if known is None or known not in _TABLES:
        return None
    letter = breaker_type_in(device_type) if has_type(known) else ""
    of_table, keys = table(_TABLES[known], edition), (letter, rating) if has_type(known) else (rating,)
    if of_table.row(*keys) is None:
        return None
    words = (known, f"type {letter}" if letter else "", f"{rating.normalize():f} A", kind_of(known))
    return DeviceLimits(
        device=" ".join(word for word in words if word),
        short_time=of_table.limit_in(OHM, "within_0_4_s", *keys),
        long_time=of_table.limit_in(OHM, "within_5_s", *keys),
    )


def ratings_known(standard: str, device_type: str, edition: Edition) -> tuple[Amperes, ...]:
    """The ratings the table of a standard has rows for, of one type where devices have types."""
    rows = table(_TABLES[standard], edition).rows
    return tuple(Amperes(row.figures["rating"].value) for row in rows if row.texts.get("type", "") == device_type)


def rcd_limit(idn: Milliamperes, edition: Edition) -> Limit[Ohms] | None:
    """The highest Zs, or RA, at which an RCD of this rated residual current (mA) gives fault protection."""
    return table("rcd_fault_protection", edition).limit_in(OHM, "at_most", idn)
