"""By which of its words a job was found."""

from collections.abc import Sequence
from typing import NamedTuple

from domain.log.log_line import Findable
from domain.log.sought import Concept, Sought

_BEGUN = 0.9
"""How sure a word is of which only the beginning was typed."""
_ANYWHERE = ("client", "place", "other")


class ConceptFound(NamedTuple):
    """How a job holds a thing."""

    word: str
    where: str
    quality: float


def concepts_in(concepts: Sequence[Concept], held: Findable) -> tuple[ConceptFound | None, ...]:
    """The surest way in which a job holds each thing; None for what it does not hold."""
    places = {word: where for where in reversed(_ANYWHERE) for word in getattr(held, where)}
    return tuple(_concept_in(concept, places, held) for concept in concepts)


def _concept_in(concept: Concept, places: dict[str, str], held: Findable) -> ConceptFound | None:
    found: ConceptFound | None = None
    for way in concept.ways:
        if found and found.quality >= way.quality:
            continue
        if not way.column and (where := places.get(way.text)):
            found = ConceptFound(way.text, where, way.quality)
        elif way.column and way.text in getattr(held, way.column):
            found = ConceptFound(way.text, way.column, way.quality)
        elif way.begun and (begun := _begun_in(way, held)):
            found = begun
    return found


def _begun_in(way: Sought, held: Findable) -> ConceptFound | None:
    for where in (way.column,) if way.column else _ANYWHERE:
        for word in getattr(held, where):
            if word.startswith(way.text):
                return ConceptFound(word, where, way.quality * _BEGUN)
    return None
