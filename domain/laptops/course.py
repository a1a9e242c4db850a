"""What an operation does to who holds what: the same at every station that hears of it."""

from collections.abc import Mapping
from typing import Any

from domain.laptops.exchange_store import ExchangeStore
from domain.laptops.holding import OFFICE, Holding, Station, StationState
from domain.laptops.operation import Act, Operation, digest_of

_GRAVITY = (StationState.ACTIVE, StationState.LOST, StationState.REBORN, StationState.SHUT)


def is_office(store: ExchangeStore, device: str) -> bool:
    """A device is the office, or was before the office was put back from a copy."""
    station = store.station(device)
    return station is not None and station.is_office


def reason_against(store: ExchangeStore, operation: Operation) -> str:
    """Why an operation cannot stand where it comes now, in a word or two; "" where it can."""
    station = store.station(operation.device)
    if operation.act is Act.REBORN:
        return ""
    if station is None:
        return "done by a device that was never enrolled"
    if station.state is StationState.SHUT:
        return "done by a device that was shut out"
    if operation.act.is_offices and not station.is_office:
        return "only the office does that"
    if operation.act is Act.SET_ASIDE and store.is_done(operation.told["device"], operation.told["counter"]):
        return "the office, put back from a copy since, judged otherwise"
    return job_against(store, operation)


def job_against(store: ExchangeStore, operation: Operation) -> str:
    """Why it does not follow on how its job stands here."""
    if not operation.act.is_chained:
        return ""
    now, mine = store.holding(operation.job), OFFICE if is_office(store, operation.device) else operation.device
    match operation.act:
        case Act.BEGIN:
            return "another job has that number" if now.tip else ""
        case Act.GRANT if now.holder != OFFICE or operation.fence <= now.fence:
            return "the job had been lent otherwise"
        case Act.GIVE | Act.EDIT | Act.ISSUE | Act.ADMIT if (now.holder, now.fence) != (mine, operation.fence):
            return "the job was with somebody else"
        case Act.ISSUE | Act.ADMIT if now.is_issued:
            return "the job had been issued"
        case _:
            return "" if now.tip == operation.after else "the job had been changed meanwhile"


def advance(store: ExchangeStore, operation: Operation) -> None:
    """Have what is known of jobs and devices follow an operation that stands."""
    job, now = operation.job, store.holding(operation.job) if operation.job else Holding()
    told: Mapping[str, Any] = {} if operation.act.is_of_a_job else operation.told
    match operation.act:
        case Act.BEGIN:
            holder = OFFICE if is_office(store, operation.device) else operation.device
            store.put_holding(job, Holding(holder, 0, digest_of(operation), operation.at))
        case Act.EDIT | Act.ADMIT:
            store.put_holding(job, now._replace(tip=digest_of(operation)))
        case Act.ISSUE:
            store.put_holding(job, now._replace(tip=digest_of(operation), is_issued=True))
        case Act.GRANT:
            lent = now._replace(
                holder=told["device"], fence=operation.fence, tip=digest_of(operation), since=operation.at
            )
            store.put_holding(job, lent)
        case Act.GIVE:
            store.put_holding(job, now._replace(holder=OFFICE, tip=digest_of(operation), since=operation.at))
        case Act.COPY:
            store.put_holding(job, now._replace(goes_on_as=max(now.goes_on_as, told["as"])))
            store.put_holding(told["as"], store.holding(told["as"])._replace(goes_on_from=job))
        case Act.ENROL:
            station = Station(told["device"], told["name"], told["person"], told["days"])
            known = store.station(station.device)
            store.put_station(known._replace(days=station.days) if known else station)
        case Act.LOST | Act.SHUT:
            _change_state(store, told["device"], StationState(operation.act.value))
        case Act.REBORN:
            _reborn(store, operation)
        case _:
            pass


def _change_state(store: ExchangeStore, device: str, state: StationState) -> None:
    """What is worse stays, in whichever order it was heard; whoever is shut out stays so under any name."""
    station = store.station(device)
    if station is None or _GRAVITY.index(station.state) >= _GRAVITY.index(state):
        return
    store.put_station(station._replace(state=state, is_awaited=False))
    for other in store.stations() if state is StationState.SHUT else ():
        if device in other.was:
            _change_state(store, other.device, state)


def _reborn(store: ExchangeStore, operation: Operation) -> None:
    told, device = operation.told, operation.device
    before = store.station(told["was"]) or Station(told["was"], told["name"])
    names = (before.device, *sorted({*told["to"]} - {before.device, device}))
    known = [store.station(name) for name in names]
    is_shut = any(each.state is StationState.SHUT for each in known if each)
    # The copy that was put back may be from before some of its names, and these be heard of later.
    is_past = any(device in each.was for each in store.stations())
    state = StationState.SHUT if is_shut else StationState.REBORN if is_past else StationState.ACTIVE
    store.put_station(before._replace(device=device, name=told["name"], state=state, was=names, is_awaited=False))
    for name in names:
        _change_state(store, name, StationState.REBORN)
