"""How the words of a log may stand for what was typed: as typed, written otherwise, or with one error."""

from collections.abc import Iterable, Sequence
from itertools import pairwise, starmap

from domain.log.searching.concepts import nearly
from domain.log.sought import Concept, Sought
from domain.log.spelling import sounds_alike
from domain.log.store import Store
from domain.misspelling import is_one_edit_apart, may_be_misspelt

COMMON = 2000
"""More jobs than this hold a common thing; such a thing weighs jobs and finds none by itself."""
_SLIP, _SOUND = 0.8, 0.6
"""How sure a word is that has one error, and one that only sounds alike."""
_SPLIT = 4
"""Two words written as one have so many letters each."""


class Wording:
    """What one search asked the log of words; nothing is asked twice."""

    def __init__(self, store: Store) -> None:
        self._store = store
        self._counts: dict[tuple[Sought, ...], int] = {}
        self._near: dict[str, Sequence[str]] = {}

    def count(self, concept: Concept) -> int:
        """How many jobs hold a thing; all common ones count alike."""
        return self.counts((concept,))[0]

    def counts(self, concepts: Iterable[Concept]) -> list[int]:
        """The same of several, asked at once."""
        ways = [concept.ways for concept in concepts]
        if asked := [*dict.fromkeys(each for each in ways if each not in self._counts)]:
            self._counts |= zip(asked, self._store.counts(asked, COMMON + 1), strict=True)
        return [self._counts[each] for each in ways]

    def spelt(self, concepts: Sequence[Concept]) -> tuple[Concept, ...]:
        """Each thing with the other ways to write it, and one that no job holds with what is one error away."""
        return self._widened(self._written(concepts), most=0)

    def widest(self, concepts: Sequence[Concept]) -> tuple[Concept, ...]:
        """Each thing with every way in which it may be written, errors among them; a common one was surely meant."""
        return self._widened(self._written(concepts), most=COMMON)

    def _written(self, concepts: Sequence[Concept]) -> list[Concept]:
        joined = self._joined(concepts)
        counted = zip(self.counts(joined), joined, strict=True)
        return [concept if count > COMMON else _with(concept, nearly(concept)) for count, concept in counted]

    def _joined(self, concepts: Sequence[Concept]) -> list[Concept]:
        """Two words typed apart that the log holds as one are one thing: O Hara, rope walk."""
        found: list[Concept] = []
        self.counts(filter(None, starmap(_as_one, pairwise(concepts))))
        for concept in concepts:
            before = found[-1] if found else None
            one = _as_one(before, concept) if before else None
            if one and self.count(one):
                found[-1] = one
            else:
                found.append(concept)
        return found

    def _widened(self, concepts: Sequence[Concept], most: int) -> tuple[Concept, ...]:
        """Those that no more jobs hold, with errors put right."""
        counted = [*zip(self.counts(concepts), concepts, strict=True)]
        words = [word for count, concept in counted if count <= most for word in _misspelt(concept)]
        if asked := [word for word in dict.fromkeys(words) if word not in self._near]:
            self._near |= self._store.near(asked)
        return tuple(self._widest(concept) if count <= most else concept for count, concept in counted)

    def _widest(self, concept: Concept) -> Concept:
        first, ways = concept.ways[0], list[Sought]()
        for typed in _misspelt(concept):
            near = self._near[typed]
            ways += [_instead(first, word, _SLIP) for word in near if is_one_edit_apart(typed, word)]
            ways += [_instead(first, word, _SOUND) for word in near if sounds_alike(typed, word)]
        return _with(concept, ways or (self._split(first) if first.text.isalpha() else ()))

    def _split(self, first: Sought) -> tuple[Sought, ...]:
        """A word that the log holds as two, upperquenby, stands for the longer of them."""
        split = [(first.text[:at], first.text[at:]) for at in range(len(first.text) - _SPLIT, _SPLIT - 1, -1)]
        words = [*dict.fromkeys(part for parts in split for part in parts)]
        counts = self.counts(Concept(word, (Sought(word, column=first.column),)) for word in words)
        held = {word for word, count in zip(words, counts, strict=True) if count}
        parts = next((parts for parts in split if held.issuperset(parts)), ())
        return (_instead(first, max(parts, key=len), _SLIP),) if parts else ()


def _misspelt(concept: Concept) -> list[str]:
    """Words in which it may have been written with an error."""
    first = concept.ways[0]
    return [way.text for way in concept.ways if way.column == first.column and may_be_misspelt(way.text)]


def _as_one(one: Concept, other: Concept) -> Concept | None:
    """Two words as one; None where either is more than a word, such as a month."""
    first, second = one.ways[0], other.ways[0]
    words = (one.typed, other.typed) == (first.text, second.text) and first.column == second.column
    text = f"{first.text}{second.text}"
    return Concept(f"{one.typed} {other.typed}", (second._replace(text=text),)) if words and text.isalpha() else None


def _instead(way: Sought, word: str, quality: float) -> Sought:
    return way._replace(text=word, begun=False, quality=quality)


def _with(concept: Concept, ways: Iterable[Sought]) -> Concept:
    texts = {way.text for way in concept.ways}
    more: dict[str, Sought] = {}
    for way in ways:
        if way.text not in texts:
            more.setdefault(way.text, way)
    return concept._replace(ways=(*concept.ways, *more.values()))
