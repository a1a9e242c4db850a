"""What a record says of supply, earthing, boards and premises, as the rules of agreement ask it: a small condition each."""

from collections.abc import Mapping

from domain.checks.shared.phrases import phrase
from domain.checks.shared.sources import sources_named
from domain.checks.shared.uses import is_dwelling
from domain.checks.whole_paper.agreement_record import Condition, Names, Record, shortened
from domain.figures.units import SquareMillimetres
from domain.job.box import boxes_of, shown_in
from domain.job.circuit_use import BATTERY, GENERATOR, SOLAR
from domain.job.earthing import BONDED, Earthing
from domain.job.reading import Meaning, Reading
from domain.value import says_none, says_nothing


def _main_switch(record: Record) -> Names:
    standard = record.job.main_switch.standard.strip()
    return () if says_nothing(standard) else (standard,)


def _one_pole(record: Record) -> Names:
    poles = record.job.main_switch.poles
    return (poles.shown,) if poles.figure == 1 else ()


def _another_source(record: Record) -> Names:
    text = record.job.supply.other_sources
    typed = () if says_nothing(text) else (shortened(text),)
    return typed or tuple(name for name, _ in record.sources)


def _in_parallel(record: Record) -> Names:
    circuits = tuple(name for name, fed in record.sources if fed & {SOLAR, BATTERY})
    text = record.job.supply.other_sources
    typed = () if says_nothing(text) or not sources_named(text) & {SOLAR, BATTERY} else (shortened(text),)
    return typed or circuits


def _generator(record: Record) -> Names:
    circuits = tuple(name for name, fed in record.sources if GENERATOR in fed)
    text = record.job.supply.other_sources
    typed = () if says_nothing(text) or GENERATOR not in sources_named(text) else (shortened(text),)
    return typed or circuits


def _no_other_source(record: Record) -> Names:
    text = record.job.supply.other_sources
    return (shortened(text),) if says_none(text) and not record.sources else ()


def _distributors_earth(record: Record) -> Names:
    return _means(record, "distributor's facility", "both")


def _electrode_alone(record: Record) -> Names:
    return _means(record, "electrode")


def _electrode(record: Record) -> Names:
    return _means(record, "electrode", "both")


def _no_electrode(record: Record) -> Names:
    earthing = record.job.earthing
    is_named = not says_nothing(earthing.electrode_type) or earthing.electrode_resistance.value is not None
    return () if is_named else _means(record, "distributor's facility")


def _means(record: Record, *which: str) -> Names:
    means = record.job.earthing.means.strip()
    return (means,) if means in which else ()


def _earthing_conductor(record: Record) -> Names:
    return _sized(record, "conductor")


def _no_earthing_conductor(record: Record) -> Names:
    size = record.job.earthing.conductor_csa
    return (size.shown,) if size.meaning is Meaning.NOT_APPLICABLE else ()


def _sized(record: Record, conductor: str) -> Names:
    size: Reading[SquareMillimetres] = getattr(record.job.earthing, f"{conductor}_csa")
    return (f"{size.shown} mm²",) if size.value is not None else ()


def _main_bonding(record: Record) -> Names:
    earthing = record.job.earthing
    ticked = [name for name in BONDED if getattr(earthing, name).meaning is Meaning.TICK]
    labels = tuple(f"{boxes_of(Earthing)[name].label} {shown_in(earthing, name)}" for name in ticked)
    return labels or _sized(record, "bonding")


def _nothing_bonded(record: Record) -> Names:
    """Bonding is given as N/A throughout; a box left empty says nothing yet."""
    earthing = record.job.earthing
    marks = {getattr(earthing, name).meaning for name in (*BONDED, "bonding_csa", "bonding_verified")}
    if not marks <= {Meaning.NOT_APPLICABLE, Meaning.EMPTY} or not says_nothing(earthing.bonded_other):
        return ()
    given = {earthing.bonded_water.meaning, earthing.bonded_gas.meaning, earthing.bonding_csa.meaning}
    return (phrase("all-bonding-n-a"),) if given == {Meaning.NOT_APPLICABLE} else ()


def _other_bonding(record: Record) -> Names:
    text = record.job.earthing.bonded_other
    return () if says_nothing(text) else (shortened(text),)


def _surge_protection(record: Record) -> Names:
    return tuple(board.name for board in record.job.boards if not says_nothing(board.spd_type))


def _no_surge_protection(record: Record) -> Names:
    boards = record.job.boards
    return tuple(board.name for board in boards) if all(says_none(board.spd_type) for board in boards) else ()


def _dwelling(record: Record) -> Names:
    return (record.job.premises.use.strip(),) if is_dwelling(record.job) else ()


def _no_dwelling(record: Record) -> Names:
    use = record.job.premises.use.strip()
    return (use,) if use and not is_dwelling(record.job) else ()


ORIGIN: Mapping[str, Condition] = {
    "a main switch": _main_switch,
    "a main switch of one pole": _one_pole,
    "another source": _another_source,
    "a source in parallel": _in_parallel,
    "a generator": _generator,
    "no other source": _no_other_source,
    "the distributor's earth": _distributors_earth,
    "an electrode alone": _electrode_alone,
    "an electrode": _electrode,
    "no electrode": _no_electrode,
    "an earthing conductor": _earthing_conductor,
    "no earthing conductor": _no_earthing_conductor,
    "main bonding": _main_bonding,
    "nothing bonded": _nothing_bonded,
    "other bonding": _other_bonding,
    "surge protection": _surge_protection,
    "no surge protection": _no_surge_protection,
    "a dwelling": _dwelling,
    "no dwelling": _no_dwelling,
}
"""Each under the name that a row of the table has for it."""
