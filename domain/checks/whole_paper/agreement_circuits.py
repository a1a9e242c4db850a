"""What a record says of its circuits and RCDs, as the rules of agreement ask it: a small condition each."""

import re
from collections.abc import Mapping

from domain.checks.shared.circuits_in_use import Way
from domain.checks.shared.rcds import says_none
from domain.checks.shared.sources import sources_brought_in
from domain.checks.whole_paper.agreement_record import Condition, Names, Record, UsedWay, shortened
from domain.figures.limits.device import kind_of, standard_in
from domain.figures.limits.loader import named_figure
from domain.job.circuit_use import SOLAR


def _circuits_in_use(record: Record) -> Names:
    return tuple(each.name for each in record.circuits)


def _breakers_or_rcds(record: Record) -> Names:
    def is_worked(each: UsedWay) -> bool:
        standard = standard_in(each.way.circuit.device_standard)
        return bool(standard and kind_of(standard) != "fuse")

    return record.where(is_worked) or tuple(name for name, _ in record.rcds)


def _rcd(record: Record) -> Names:
    return tuple(name for name, _ in record.rcds)


def _no_rcd(record: Record) -> Names:
    """Said of every circuit, not left open."""
    is_said = all(says_none(each.way.circuit) for each in record.circuits)
    return _circuits_in_use(record) if is_said and not record.rcds else ()


def _additional_rcd(record: Record) -> Names:
    most = record.additional.value
    return tuple(name for name, rcd in record.rcds if rcd.idn.figure is not None and rcd.idn.figure <= most)


def _sockets(record: Record) -> Names:
    most = named_figure("circuit_rules", "socket-outlets with an RCD, up to", record.job.edition).value

    def is_within(each: UsedWay) -> bool:
        rating = each.way.circuit.rating.figure
        return each.use.sockets and not each.use.extra_low and rating is not None and rating <= most

    return record.where(is_within)


def _sockets_outdoors(record: Record) -> Names:
    return record.where(lambda each: each.use.sockets and each.use.outdoors)


def _sockets_outdoors_without_rcd(record: Record) -> Names:
    return record.where(lambda each: each.use.sockets and each.use.outdoors and _lacks_rcd(record, each.way))


def _concealed(record: Record) -> Names:
    return record.where(lambda each: each.use.concealed)


def _concealed_without_rcd(record: Record) -> Names:
    return record.where(lambda each: each.use.concealed and _lacks_rcd(record, each.way))


def _lacks_rcd(record: Record, way: Way) -> bool:
    """It is said to have none, or none so sensitive; one whose residual current is not typed yet may be."""
    if not way.rcds:
        return says_none(way.circuit)
    return all(rcd.idn.figure is not None and rcd.idn.figure > record.additional.value for rcd in way.rcds)


def _lighting(record: Record) -> Names:
    return record.where(lambda each: each.use.lights and not each.use.extra_low)


def _extra_low(record: Record) -> Names:
    return record.where(lambda each: each.use.extra_low)


def _bathroom(record: Record) -> Names:
    return record.where(lambda each: each.use.bath)


def _special(record: Record) -> Names:
    """Charging points, heated floors and solar panels have sections of Part 7 of their own."""
    return record.where(
        lambda each: each.use.vehicle or each.use.floor_heating or SOLAR in sources_brought_in(each.way.circuit),
    )


_SPECIAL = re.compile(
    r"\bsaunas?\b|\bswimming|\bpool (?:pump|heat|light)|\bhot tubs?\b|\bcaravan|\bcamp ?site|\bmarinas?\b|\bagricultur|\bhorticultur"
    r"|\bmilking|\bexhibition|\bfairground|\boperating theatre",
    re.IGNORECASE,
)


def _special_in_words(record: Record) -> Names:
    use = record.job.premises.use
    return (*((shortened(use),) if _SPECIAL.search(use) else ()), *record.where(_is_called_special))


def _is_called_special(each: UsedWay) -> bool:
    return bool(_SPECIAL.search(each.way.circuit.description))


CIRCUITS: Mapping[str, Condition] = {
    "circuits in use": _circuits_in_use,
    "breakers or RCDs": _breakers_or_rcds,
    "an RCD": _rcd,
    "no RCD": _no_rcd,
    "an RCD of additional protection": _additional_rcd,
    "socket-outlets within the rule": _sockets,
    "socket-outlets outdoors": _sockets_outdoors,
    "socket-outlets outdoors without an RCD": _sockets_outdoors_without_rcd,
    "concealed cables": _concealed,
    "concealed cables without an RCD": _concealed_without_rcd,
    "lighting": _lighting,
    "extra-low voltage": _extra_low,
    "a bathroom": _bathroom,
    "a special location": _special,
    "words of a special location": _special_in_words,
}
"""Each under the name that a row of the table has for it."""
