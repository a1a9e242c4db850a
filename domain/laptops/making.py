"""What a station does itself: each act kept as its next operation, and the sentence where it may not be done."""

import json
from collections.abc import Iterable, Mapping

from domain.laptops.course import advance, is_office
from domain.laptops.exchange_store import ExchangeStore, LastHeard
from domain.laptops.holding import OFFICE, Holding, Station, StationState
from domain.laptops.matter import Matter, MatterKind
from domain.laptops.operation import Act, Operation, StreamEnd

DAYS_ALONE = 14
"""A laptop that has not heard from the office for so long does not issue: somebody may have been struck off. Our own figure."""
_NOT_IN_USE = {
    StationState.LOST: "counts as lost",
    StationState.SHUT: "was shut out",
    StationState.REBORN: "has other letters since its log was put back from a copy",
}


def record(
    store: ExchangeStore, act: Act, job: str = "", *, told: Mapping[str, object] | None = None, body: str = "", at: str
) -> Operation:
    """Keep what was done here as the next operation of this device."""
    end = store.ends().get(store.own(), StreamEnd())
    now = store.holding(job) if job else Holding()
    operation = Operation(
        device=store.own(),
        counter=end.counter + 1,
        before=end.digest,
        act=act,
        job=job,
        fence=now.fence + 1 if act is Act.GRANT else now.fence if job else 0,
        after=now.tip if act.is_chained and act is not Act.BEGIN else "",
        at=at,
        body=body or (json.dumps(told, ensure_ascii=False, sort_keys=True) if told else ""),
    )
    store.add(operation, done=True)
    advance(store, operation)
    if act.is_of_a_job and is_office(store, operation.device):
        tell_copies(store, job, operation.device)
    return operation


def is_mine(store: ExchangeStore, holding: Holding) -> bool:
    """This station may change a job that stands so."""
    own = store.own()
    return holding.holder == (OFFICE if is_office(store, own) else own)


def awaited(store: ExchangeStore) -> tuple[Station, ...]:
    """Whom the office has to hear before anything is changed, since it was put back from a copy."""
    return tuple(station for station in store.stations() if station.is_awaited)


def called(store: ExchangeStore, device: str) -> str:
    """What people call a device: who works with it, or its letters."""
    if device == OFFICE:
        return "the office"
    station = store.station(device)
    return (station.person or station.name) if station else "another laptop"


def begin_office(store: ExchangeStore, device: str, name: str) -> None:
    """Have this log be the office of its firm, from now on."""
    store.put_station(Station(device, name, is_office=True))


def name_refused(store: ExchangeStore, name: str) -> str:
    """Why a laptop cannot number with these letters: whatever begins with those of another is that one's; "" where it can."""
    for station in store.stations():
        if station.is_office:
            if name.startswith(station.name) and len(name) <= len(station.name) + 1:
                return f"the office takes letters such as {name} itself, should it be put back from a copy; add another letter"
            continue
        if name.startswith(station.name):
            return f"letters that begin with {station.name} are those of another laptop"
        if station.name.startswith(name):
            return f"{station.name} numbers with letters that begin so"
    return ""


def enrol(store: ExchangeStore, device: str, name: str, *, person: str = "", days: int = DAYS_ALONE, at: str) -> None:
    """Have a laptop of the firm, whose log begins as a copy of this one made right after."""
    told = {"device": device, "name": name, "person": person, "days": days}
    record(store, Act.ENROL, told=told, at=at)
    # What it begins with, it has heard.
    store.note_heard(device, LastHeard(dict(store.ends())))


def allow_days(store: ExchangeStore, station: Station, days: int, *, at: str) -> None:
    """Have a laptop of the firm issue for so many days without having heard from the office."""
    told = {"device": station.device, "name": station.name, "person": station.person, "days": days}
    record(store, Act.ENROL, told=told, at=at)


def ask_for(store: ExchangeStore, job: str, *, at: str) -> None:
    """Ask the office for a job; it comes with its next bundle, where nobody else has it."""
    record(store, Act.ASK, job, at=at)


def not_in_use(station: Station | None) -> str:
    """Why a laptop is lent nothing, such as "HE counts as lost"; "" where it is in use."""
    if station is None:
        return "that laptop is not known"
    return f"{station.name} {_NOT_IN_USE[station.state]}" if station.state in _NOT_IN_USE else ""


def grant(store: ExchangeStore, job: str, device: str, *, at: str) -> str:
    """Lend a job to a laptop; why not, where it cannot be."""
    station, now = store.station(device), store.holding(job)
    if waited := awaited(store):
        return f"{', '.join(each.name for each in waited)} has to be heard first"
    if station is None or not_in_use(station):
        return (
            f"{not_in_use(station)}, and is lent nothing; make it a new first file (ohmfolio laptop LETTERS --to FILE)"
        )
    if now.holder != OFFICE:
        return f"it is out with {called(store, now.holder)}"
    record(store, Act.GRANT, job, told={"device": device}, at=at)
    return ""


def give_back(store: ExchangeStore, job: str, *, at: str) -> None:
    """Give a job back to the office. From now on nobody holds it until the office has heard."""
    record(store, Act.GIVE, job, at=at)


def declare(store: ExchangeStore, act: Act, device: str, *, at: str) -> None:
    """Have a laptop count as lost, or shut it out: what it holds has to be settled."""
    record(store, act, told={"device": device}, at=at)
    for job in store.held_by(device):
        # Whoever chose to wait for it, and says now that it is lost, is asked again.
        now = store.holding(job)
        if (known := store.matter(Matter(MatterKind.STRANDED, job, device).key)) and known.is_settled:
            store.put_matter(known._replace(is_settled=now.goes_on_as != "" or now.is_issued))
    strand(store, device)
    tell_what_is_gone(store)


def strand(store: ExchangeStore, device: str) -> None:
    """Put what a device holds on the list of what is to settle; of a job whose paper is known nobody waits for anything."""
    for job in store.held_by(device):
        if store.holding(job).is_issued:
            continue
        tell(store, Matter(MatterKind.STRANDED, job, device))


def go_on_as(store: ExchangeStore, device: str, name: str, *, stamped: Mapping[str, int], at: str) -> None:
    """Go on under another name, since this log was put back from a copy; `stamped` is how far it had come under each before.

    What was out stays with the name it was lent to: a paper may have gone out that nobody remembers. An office waits for
    every laptop in use, for these may have heard more of it than it knows itself.
    """
    was = store.own()
    before = store.station(was)
    office = before is not None and before.is_office
    store.become(device, name)
    operation = Operation(
        device, 1, "", Act.REBORN, at=at, body=json.dumps({"was": was, "name": name, "to": dict(stamped)})
    )
    store.add(operation, done=True)
    advance(store, operation)
    for station in store.stations() if office else ():
        if not station.is_office and station.state is StationState.ACTIVE:
            store.put_station(station._replace(is_awaited=True))
    if office:
        tell_what_is_gone(store)


def tell_what_is_gone(store: ExchangeStore) -> None:
    """Once everybody was heard, tell what an office that was put back had done before and nobody knows of."""
    own = store.station(store.own())
    if own is None or not own.was or awaited(store) or not (first := store.operation(own.device, 1)):
        return
    tell_lost_work(store, first.told["to"])


def tell_lost_work(store: ExchangeStore, stamped: Mapping[str, int]) -> None:
    """Tell what devices had done, by the stamps outside their logs, and nobody knows of."""
    for device, counter in stamped.items():
        known = store.ends().get(device, StreamEnd()).counter
        if counter > known:
            tell(store, Matter(MatterKind.LOST_WORK, device=device, first=known + 1, last=counter))


def tell(store: ExchangeStore, matter: Matter) -> None:
    """Have people settle something; told again, it covers more, and what was settled stays so unless there is more."""
    if (known := store.matter(matter.key)) is None:
        store.put_matter(matter)
        return
    first, last = min(known.first, matter.first), max(known.last, matter.last)
    if (first, last) != (known.first, known.last):
        store.put_matter(matter._replace(first=first, last=last))


def tell_copies(store: ExchangeStore, job: str, device: str) -> None:
    """Tell where a job and a copy it goes on as are both worked at, or both issued; a copy may go on as another in turn."""
    now = store.holding(job)
    if now.goes_on_as:
        tell(store, Matter(MatterKind.COPIED, job, device, now.goes_on_as))
    if not now.is_issued:
        return
    before, after = _gone_on(store, job, "goes_on_from"), _gone_on(store, job, "goes_on_as")
    for original, copy in (*((each, job) for each in before), *((job, each) for each in after)):
        if store.holding(original).is_issued and store.holding(copy).is_issued:
            tell(store, Matter(MatterKind.TWO_PAPERS, original, other=copy))


def _gone_on(store: ExchangeStore, job: str, way: str) -> Iterable[str]:
    """The jobs that a job goes on as, or those it goes on from, one after the other."""
    met = [job]
    while (other := getattr(store.holding(met[-1]), way)) and other not in met:
        met.append(other)
    return met[1:]


def settled(store: ExchangeStore, keys: Iterable[tuple[str, str, str, str]]) -> None:
    """Take matters off the list."""
    for key in keys:
        if known := store.matter(key):
            store.put_matter(known._replace(is_settled=True))
