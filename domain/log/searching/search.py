"""A search of the log: all that was asked, as typed; else with one error a word put right; else most of it.

What holds all of it is listed as any list of the log, the one touched last first, page by page. What holds only part is
weighed: a thing counts for more the fewer jobs hold it, and for less where it had to be put right.
"""

import math
from collections.abc import Iterator, Sequence
from itertools import combinations

from domain.log.job_log import Found, FoundBy, FoundJob, JobLine, Query
from domain.log.search_words import understood
from domain.log.searching.concepts import concepts_of
from domain.log.searching.matching import ConceptFound, concepts_in
from domain.log.searching.wording import COMMON, Wording
from domain.log.sought import Concept
from domain.log.store import Store

_TELLING = 6
"""So many of the rarest things asked are looked for in part."""
_PAIRED = 4
"""Among so many of the rarest, each pair is looked for."""
_FEW = 12
"""At the least so many of the newest are weighed of those that hold the same part."""
_ENOUGH = 8
"""Once so many jobs hold most, those that hold less are not looked for."""
_LEAST = 0.25
"""Of the weight of the best; what holds less is not shown."""


def search(store: Store, query: Query) -> Found:
    """What an asked query finds, best first."""
    asked = understood(query)
    concepts = concepts_of(asked)
    filters = asked.model_copy(update={"words": "", "client": "", "place": ""})
    if not concepts:
        return _whole(store, store.find(asked), (), asked)
    words = Wording(store)
    for spelt, as_typed in ((concepts, True), (words.spelt(concepts), False)):
        if lines := _holding_all(store, words, filters, spelt):
            return _whole(store, lines, spelt, asked)._replace(is_as_typed=as_typed)
    return Found() if asked.before else _most(store, words, filters, words.widest(concepts))


def _holding_all(store: Store, words: Wording, filters: Query, concepts: Sequence[Concept]) -> tuple[JobLine, ...]:
    counts = words.counts(concepts)
    if not all(counts):
        return ()
    # The rare ones are asked first: where no job holds those, the long lists of the common ones need not be read.
    rare = [concept.ways for count, concept in zip(counts, concepts, strict=True) if count <= COMMON]
    if 1 < len(rare) < len(concepts) and not store.find(filters.model_copy(update={"limit": 1, "before": ""}), rare):
        return ()
    return store.find(filters, [concept.ways for concept in concepts])


def _whole(store: Store, lines: tuple[JobLine, ...], concepts: Sequence[Concept], asked: Query) -> Found:
    held = store.held([line.number for line in lines] if concepts else [])
    jobs = tuple(
        _found(line, concepts, concepts_in(concepts, held[line.number])) for line in lines if line.number in held
    )
    return Found(
        jobs=jobs if concepts else tuple(FoundJob(line=line) for line in lines), has_more=len(lines) == asked.limit
    )


def _most(store: Store, words: Wording, filters: Query, concepts: Sequence[Concept]) -> Found:
    counted = [*zip(words.counts(concepts), concepts, strict=True)]
    known = sorted(((count, concept) for count, concept in counted if count), key=lambda each: each[0])
    telling = [concept for count, concept in known if count <= COMMON][:_TELLING] or [each for _, each in known[:2]]
    lines: dict[str, JobLine] = {}
    for level in _levels(telling):
        few = filters.model_copy(update={"limit": max(filters.limit // max(len(level), 1), _FEW)})
        for part in level:
            lines |= {line.number: line for line in store.find(few, [concept.ways for concept in part])}
        if len(lines) >= _ENOUGH:
            break
    weights = [_weight(count) for count, _ in counted]
    held = store.held(list(lines))
    ways = {number: concepts_in(concepts, words) for number, words in held.items()}
    weighed = [(_weighed(weights, found), lines[number]) for number, found in ways.items()]
    weighed.sort(key=lambda each: (-each[0], -each[1].updated.timestamp(), each[1].number))
    shown = [line for weight, line in weighed[: filters.limit] if weight >= weighed[0][0] * _LEAST]
    jobs = tuple(_found(line, concepts, ways[line.number]) for line in shown)
    return Found(jobs=jobs, is_whole=not any(job.lacks for job in jobs), is_as_typed=False)


def _levels(telling: Sequence[Concept]) -> Iterator[Sequence[Sequence[Concept]]]:
    """What to look for together: all, all but one, pairs of the rarest, each by itself."""
    yield [telling] if telling else []
    if len(telling) > 2:
        yield [*combinations(telling, len(telling) - 1)]
    if len(telling) > _PAIRED - 1:
        yield [*combinations(telling[:_PAIRED], 2)]
    yield [[concept] for concept in telling]


def _weight(count: int) -> float:
    """From 1 for what most jobs hold to 3 for what one holds."""
    return 3 - 2 * math.log(max(count, 1)) / math.log(COMMON + 1)


def _weighed(weights: Sequence[float], ways: Sequence[ConceptFound | None]) -> float:
    return sum(weight * way.quality for weight, way in zip(weights, ways, strict=True) if way)


def _found(line: JobLine, concepts: Sequence[Concept], ways: Sequence[ConceptFound | None]) -> FoundJob:
    each = tuple(zip(concepts, ways, strict=True))
    by = tuple(FoundBy(typed=concept.typed, word=way.word, where=way.where) for concept, way in each if way)
    return FoundJob(line=line, by=by, lacks=tuple(concept.typed for concept, way in each if not way))
