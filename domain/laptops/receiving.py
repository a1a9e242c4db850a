"""A bundle taken in: what is new is done in its order, what was heard before is passed over, what cannot stand is set aside."""

import json
from collections.abc import Iterable

from domain.laptops.bundle import Bundle, GapError, TakenIn
from domain.laptops.course import advance, is_office, job_against, reason_against
from domain.laptops.exchange_store import ExchangeStore, JobsTold
from domain.laptops.holding import OFFICE
from domain.laptops.making import (
    awaited,
    grant,
    record,
    settled,
    strand,
    tell,
    tell_copies,
    tell_lost_work,
    tell_what_is_gone,
)
from domain.laptops.matter import Matter, MatterKind
from domain.laptops.operation import Act, Ends, Operation, StreamEnd, digest_of

_START = StreamEnd()


def bundle_for(store: ExchangeStore, ends: Ends, jobs: JobsTold, asked: Iterable[str] = ()) -> Bundle:
    """What somebody lacks who has heard so far; `asked` are jobs that are contested there."""
    bundle = Bundle(store.own(), dict(store.ends()), dict(ends), store.following(ends), store.contested())
    if not is_office(store, store.own()):
        return bundle
    jobs_told = dict.fromkeys((*bundle.contested, *asked))
    return bundle._replace(holdings={job: (store.holding(job), jobs.document(job)) for job in jobs_told})


def was_put_back(store: ExchangeStore, ends: Ends) -> bool:
    """Somebody has heard more of this device than it knows itself, or something else."""
    own = store.own()
    theirs, mine = ends.get(own, _START), store.ends().get(own, _START)
    if theirs.counter > mine.counter:
        return True
    known = store.operation(own, theirs.counter)
    return known is not None and digest_of(known) != theirs.digest


def take_in(store: ExchangeStore, bundle: Bundle, jobs: JobsTold, *, at: str) -> TakenIn:
    """Take a bundle in, inside a transaction of the caller. GapError where one before it is missing: then nothing is kept.

    The office decides what stands, and says so in operations of its own; laptops follow its order.
    """
    if was_put_back(store, bundle.ends):
        return TakenIn(0, 0, (), 0, put_back=True)
    for device, end in bundle.since.items():
        if store.ends().get(device, _START).counter < end.counter:
            raise GapError(device)
    intake = _Intake(store, jobs, at)
    with store.remembering():
        for operation in bundle.operations:
            intake.take(operation)
        jobs.write_down()
    if is_office(store, store.own()):
        intake.heard_from(bundle)
    else:
        intake.stand_as(bundle)
    return TakenIn(intake.new, intake.repeated, tuple(dict.fromkeys(intake.changed)), intake.aside)


def tell_twins_since(store: ExchangeStore, jobs: JobsTold, sender: str, ends: Ends) -> None:
    """At the office: tell of twins of what was done since `sender` said last that it had heard so far.

    Ask it before what it says now is noted, even where its bundle cannot be taken in: it may have heard of all by then.
    """
    if is_office(store, store.own()):
        done = (each for each in store.following(ends) if each.act.is_of_a_job and each.device != sender)
        _tell_twins(store, jobs, (each.job for each in done))


def _tell_twins(store: ExchangeStore, jobs: JobsTold, changed: Iterable[str]) -> None:
    for job in dict.fromkeys(changed):
        for twin in jobs.twins(job):
            first, second = sorted((job, twin))
            tell(store, Matter(MatterKind.TWINS, first, other=second))


class _Intake:
    """One bundle on its way in."""

    def __init__(self, store: ExchangeStore, jobs: JobsTold, at: str) -> None:
        self.new = self.repeated = self.aside = 0
        self.changed: list[str] = []
        self._store, self._jobs, self._at = store, jobs, at
        self._is_office = is_office(store, store.own())
        self._ends = dict(store.ends())
        self._asked: list[Operation] = []

    def take(self, operation: Operation) -> None:
        """Take one operation in, unless it was heard before."""
        end = self._ends.get(operation.device, _START)
        if operation.counter <= end.counter:
            self.repeated += 1
            known = self._store.operation(operation.device, operation.counter)
            if known is not None and known != operation:
                self._strange(operation)
            return
        if operation.counter > end.counter + 1:
            raise GapError(operation.name)
        if operation.before != end.digest:
            self._strange(operation)
            return
        self._ends[operation.device] = StreamEnd(operation.counter, digest_of(operation))
        self.new += 1
        if self._is_office:
            self._judge(operation)
        else:
            self._follow(operation)

    def heard_from(self, bundle: Bundle) -> None:
        """Answer what was asked, now that all of it is in, and tell what came to light."""
        store = self._store
        if (station := store.station(bundle.sender)) and station.is_awaited:
            store.put_station(station._replace(is_awaited=False))
        tell_what_is_gone(store)
        for asked in self._asked:
            answer(store, asked, self._at)
        _tell_twins(store, self._jobs, self.changed)

    def stand_as(self, bundle: Bundle) -> None:
        """At a laptop: have contested jobs stand as with the office, but for what was done here on top of that."""
        store, before = self._store, dict[str, str]()
        for each in store.following(bundle.ends) if bundle.holdings else ():
            if each.act.is_chained and each.job in bundle.holdings:
                before[digest_of(each)] = each.after
        for job, (holding, document) in bundle.holdings.items():
            tip = store.holding(job).tip
            while tip in before:
                tip = before[tip]
            # What was put into it after all may have been there in part, or in another order.
            is_as_told = tip != store.holding(job).tip or self._jobs.document(job) == document
            if tip != holding.tip or not is_as_told:
                self._jobs.stand(job, document)
                store.put_holding(job, holding)
                self.changed.append(job)

    def _judge(self, operation: Operation) -> None:
        """At the office: it stands, or it is set aside, and everybody hears which before they hear of it."""
        store = self._store
        is_aside = store.is_aside(operation.device, operation.counter)
        if not is_aside and reason_against(store, operation):
            self._say_aside(operation)
            is_aside = True
        store.add(operation, done=not is_aside)
        if is_aside:
            self._jobs.keep_aside(operation)
            self._tell_aside(operation)
            return
        self._do(operation)
        self._look_at(operation)

    def _follow(self, operation: Operation) -> None:
        """At a laptop: the office has judged it. What does not fit here will be put right by how the office has it."""
        store = self._store
        fits = not store.is_aside(operation.device, operation.counter) and not job_against(store, operation)
        store.add(operation, done=fits)
        if fits:
            self._do(operation)
        else:
            self._jobs.keep_aside(operation)

    def _do(self, operation: Operation) -> None:
        store = self._store
        if operation.act is Act.SET_ASIDE:
            self._put_aside(operation)
        elif operation.act is Act.ADMIT:
            for each in admitted(store, operation):
                self._jobs.admit(each)
        elif operation.act is Act.LEAVE:
            settled(store, [tuple(operation.told["matter"])])
        elif operation.act.is_of_a_job or operation.act in (Act.NOTE, Act.RULE):
            self._jobs.perform(operation)
        advance(store, operation)
        if operation.act is Act.ADMIT:
            close_admitted(store, operation)
        if operation.job:
            self.changed.append(operation.job)

    def _put_aside(self, operation: Operation) -> None:
        told, store = operation.told, self._store
        named = told["device"], told["counter"]
        store.set_aside(*named)
        target = store.operation(*named)
        if target and target.act is Act.SET_ASIDE:
            store.reinstate(target.told["device"], target.told["counter"])

    def _say_aside(self, operation: Operation) -> None:
        """Say that it does not stand; how the job stands instead goes with every bundle from now on."""
        store = self._store
        told = {"device": operation.device, "counter": operation.counter}
        record(store, Act.SET_ASIDE, operation.job, told=told, at=self._at)
        store.set_aside(operation.device, operation.counter)
        self._ends[store.own()] = store.ends()[store.own()]

    def _tell_aside(self, operation: Operation) -> None:
        self.aside += 1
        if not operation.act.is_offices:
            number = operation.counter
            told = Matter(MatterKind.ASIDE, operation.job, operation.device, first=number, last=number)
            tell(self._store, told)

    def _strange(self, operation: Operation) -> None:
        """Other bytes under a name that is taken, or behind such: kept whole, and told."""
        self.aside += 1
        kept = json.dumps(operation, ensure_ascii=False)
        number = operation.counter
        tell(self._store, Matter(MatterKind.STRANGE, operation.job, operation.device, kept, number, number))

    def _look_at(self, operation: Operation) -> None:
        """At the office: what has to be answered or told because of it."""
        store = self._store
        if operation.act is Act.ASK:
            self._asked.append(operation)
        elif operation.act is Act.REBORN:
            for was in dict.fromkeys((operation.told["was"], *operation.told["to"])):
                strand(store, was)
            tell_lost_work(store, operation.told["to"])
        elif operation.act is Act.GIVE:
            settled(store, [Matter(MatterKind.STRANDED, operation.job, operation.device).key])
        elif operation.act in (Act.LOST, Act.SHUT):
            strand(store, operation.told["device"])
        elif operation.act.is_of_a_job or operation.act is Act.COPY:
            if operation.act is Act.ISSUE:
                settled(store, [Matter(MatterKind.STRANDED, operation.job, operation.device).key])
            tell_copies(store, operation.job, operation.device)


def answer(store: ExchangeStore, asked: Operation, at: str) -> None:
    """Lend what was asked for, where the office has it; else it is asked for again."""
    now = store.holding(asked.job)
    if now.holder == OFFICE and not awaited(store):
        grant(store, asked.job, asked.device, at=at)


def admitted(store: ExchangeStore, operation: Operation) -> Iterable[Operation]:
    """The operations that an act of the office has done after all, in their order."""
    told = operation.told
    for counter in range(told["first"], told["last"] + 1):
        each = store.operation(told["device"], counter)
        if each and each.job == operation.job and store.is_aside(each.device, counter):
            yield each


def close_admitted(store: ExchangeStore, operation: Operation) -> None:
    """Take what was admitted off the list, and know a paper among it."""
    if any(each.act is Act.ISSUE for each in admitted(store, operation)):
        store.put_holding(operation.job, store.holding(operation.job)._replace(is_issued=True))
    settled(store, [Matter(MatterKind.ASIDE, operation.job, operation.told["device"]).key])
