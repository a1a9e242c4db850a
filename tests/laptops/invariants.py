"""What must be true of an office and its laptops once all have met: nothing lost, twice or unlike without anybody being told."""

from collections import Counter

from domain.laptops.holding import StationState
from domain.laptops.matter import MatterKind
from domain.laptops.operation import Act
from tests.laptops.machine import Machine
from tests.laptops.simulation import Town


def broken(town: Town) -> list[str]:
    """What must never be, and is; nothing where all is well. Ask after `heal`."""
    return [
        *_lost_untold(town),
        *_numbers_twice(town),
        *_papers_twice_untold(town),
        *_unlike(town),
        *_aside_untold(town),
    ]


def lost(town: Town) -> set[str]:
    """What people were told is kept, and is nowhere any more."""
    kept = set().union(*(machine.kept for machine in (town.office, *town.laptops, *town.gone)))
    there = {operation.name for operation in town.office.store.order}
    strange = {matter.other for matter in town.office.store.told.values() if matter.kind is MatterKind.STRANGE}
    return {
        name
        for name in kept - there
        if not any(f'"{name.split(":")[0]}", {name.split(":")[1]},' in each for each in strange)
    }


def _lost_untold(town: Town) -> list[str]:
    store = town.office.store
    gone = {name for machine in town.gone for name in _names_of(town, machine)}
    told: set[str] = set()
    for matter in store.told.values():
        if matter.kind is MatterKind.LOST_WORK:
            told |= {f"{matter.device}:{counter}" for counter in range(matter.first, matter.last + 1)}
    untold = {name for name in lost(town) - told if name.split(":")[0] not in gone}
    town.happened["lost, with a machine or a copy put back, and told"] = len(lost(town)) - len(untold)
    unsaid = [machine.device for machine in town.gone if _is_in_use(town, machine.device)]
    return [f"lost untold: {name}" for name in sorted(untold)] + [f"gone untold: {each}" for each in unsaid]


def _is_in_use(town: Town, device: str) -> bool:
    station = town.office.store.station(device)
    return station is not None and station.state is StationState.ACTIVE


def _names_of(town: Town, machine: Machine) -> set[str]:
    return {name.split(":")[0] for name in machine.kept} | {machine.device}


def _numbers_twice(town: Town) -> list[str]:
    begun = Counter(each.job for each in town.office.store.order if each.act is Act.BEGIN)
    return [f"number twice: {job}" for job, times in begun.items() if times > 1]


def _papers_twice_untold(town: Town) -> list[str]:
    store, wrong = town.office.store, list[str]()
    issued = Counter(each.job for each in store.order if each.act is Act.ISSUE)
    matters = store.told.values()
    for job, times in issued.items():
        if times > 1 and not any(each.kind is MatterKind.ASIDE and each.job == job for each in matters):
            wrong.append(f"issued twice untold: {job}")
        for other in _goes_on_as(town, job) if store.holding(job).is_issued else ():
            if store.holding(other).is_issued and (MatterKind.TWO_PAPERS, job, "", other) not in store.told:
                wrong.append(f"two papers untold: {job} and {other}")
    for job in issued:
        for twin in town.office.jobs.twins(job):
            first, second = sorted((job, twin))
            if (MatterKind.TWINS, first, "", second) not in store.told and job in town.office.jobs.done:
                wrong.append(f"twins untold: {first} and {second}")
    return wrong


def _goes_on_as(town: Town, job: str) -> list[str]:
    found = [job]
    while other := town.office.store.holding(found[-1]).goes_on_as:
        found.append(other)
    return found[1:]


def _unlike(town: Town) -> list[str]:
    office, wrong = town.office, list[str]()
    for laptop in town.laptops:
        for what, theirs, ours in (
            ("heard", laptop.store.heard, office.store.heard),
            ("jobs", laptop.jobs.done, office.jobs.done),
            ("holdings", _told(laptop), _told(office)),
            ("stations", _states(laptop), _states(office)),
        ):
            differ = [key for key in {*theirs, *ours} if theirs.get(key) != ours.get(key)]
            wrong += [f"{laptop.device}: {what} of {key}: {theirs.get(key)} not {ours.get(key)}" for key in differ[:2]]
    return wrong


def _told(machine: Machine) -> dict[str, object]:
    return {job: holding for job, holding in machine.store.holdings.items() if holding.tip or holding.fence}


def _states(machine: Machine) -> dict[str, object]:
    return {device: station._replace(is_awaited=False) for device, station in machine.store.known.items()}


def _aside_untold(town: Town) -> list[str]:
    store = town.office.store
    told = [each for each in store.told.values() if each.kind is MatterKind.ASIDE]
    aside = [each for each in store.order if store.is_aside(each.device, each.counter) and not each.act.is_offices]
    return [
        f"set aside untold: {each.name} {each.act}"
        for each in aside
        if not any(
            (matter.job, matter.device) == (each.job, each.device) and matter.first <= each.counter <= matter.last
            for matter in told
        )
    ]
