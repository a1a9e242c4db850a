"""What a person typed to find a job, taken apart into the things that were asked, each with the ways it may be written."""

import re
from collections.abc import Iterator, Sequence
from datetime import date

from domain.log.job_log import Query
from domain.log.search_words import number_written
from domain.log.sought import Concept, Sought
from domain.log.times import day_of, time_at
from domain.words import joined, telephone, words_of

CONCEPTS_MAX = 12
"""So many things are looked for; what is typed beyond them is let go."""
_FIGURES = re.compile(r"[+()\-./0-9]+")
_NO_NAMES = frozenset(
    [
        "the",
        "a",
        "an",
        "and",
        "of",
        "in",
        "at",
        "on",
        "by",
        "for",
        "from",
        "near",
        "with",
        "to",
        "about",
        "around",
        "some",
        "who",
        "was",
        "where",
        "that",
    ]
)
"""Words between names; people type them, and papers seldom mean anything by them."""
_SHORT_FOR = {
    "rd": ("road",),
    "st": ("street", "saint"),
    "saint": ("st",),
    "ave": ("avenue",),
    "av": ("avenue",),
    "ln": ("lane",),
    "cl": ("close",),
    "sq": ("square",),
    "cres": ("crescent",),
    "ct": ("court",),
    "dr": ("drive", "doctor"),
    "gdns": ("gardens",),
    "pk": ("park",),
    "apt": ("flat", "apartment"),
    "apartment": ("flat",),
}
"""How addresses are shortened; common practice of the post."""
_LIKE_FIGURES = str.maketrans("oil", "011")
_SHORTEST_PLURAL = 4


def concepts_of(query: Query) -> tuple[Concept, ...]:
    """What an understood query asks by words: anywhere, of the client and of the place."""
    found = [*_anywhere(query.words, query.on)]
    for column in ("client", "place"):
        words = words_of(getattr(query, column))
        found += [_of_word(word, column, begun=at == len(words) - 1) for at, word in enumerate(words)]
    return tuple(found[:CONCEPTS_MAX])


def _anywhere(text: str, today: date | None) -> Iterator[Concept]:
    parts = text.split()
    tells = any(word not in _NO_NAMES for word in words_of(text))
    at = 0
    while at < len(parts):
        taken, concepts = _first_of(parts[at:], today)
        at += taken
        for concept in concepts:
            if concept.typed not in _NO_NAMES or not tells:
                yield _begun(concept) if at >= len(parts) and concept is concepts[-1] else concept


def _first_of(parts: Sequence[str], today: date | None) -> tuple[int, tuple[Concept, ...]]:
    """How many parts the first thing asked takes, and what it is; a time or a telephone number may take several."""
    figures = next((end for end, part in enumerate(parts) if not _FIGURES.fullmatch(part)), len(parts))
    if (meant := day_of(parts[0])) or (meant := time_at(_each_one_word(parts), today)):
        typed = " ".join(parts[: meant.taken])
        as_words = tuple(Sought(word) for word in words_of(typed)) if meant.taken == 1 else ()
        return meant.taken, (Concept(typed, (*as_words, *(Sought(day, column="when") for day in meant.days))),)
    if number := telephone("".join(parts[:figures])):
        return figures, (Concept(" ".join(parts[:figures]), (Sought(number),)),)
    return 1, _of_part(parts[0])


def _each_one_word(parts: Sequence[str]) -> tuple[str, ...]:
    """The words of the first parts, as long as each is a single one."""
    words: list[str] = []
    for part in parts:
        found = words_of(part)
        if len(found) != 1:
            break
        words += found
    return tuple(words)


def _of_part(part: str) -> tuple[Concept, ...]:
    """What stands between two blanks: a word or several, a number of a job or somebody's reference."""
    words = words_of(part)
    if len(words) > 1 and any(letter.isdecimal() for letter in part):
        one = joined(part)
        return (Concept(part, tuple(Sought(each) for each in dict.fromkeys((joined(number_written(part)), one)))),)
    return tuple(_of_word(word, "", begun=False) for word in words)


def _of_word(word: str, column: str, *, begun: bool) -> Concept:
    ways = [Sought(word, begun, column)]
    if (number := joined(number_written(word))) != word and not column:
        ways.append(Sought(number))
    return Concept(word, tuple(ways))


def _begun(concept: Concept) -> Concept:
    """The last word may not have been typed to its end."""
    ways = [
        way._replace(begun=way.column != "when" and way.text[:1] == concept.typed.casefold()[:1])
        for way in concept.ways
    ]
    return concept._replace(ways=tuple(ways))


def nearly(concept: Concept) -> tuple[Sought, ...]:
    """Other ways to write a thing without any error: possessives, shortened words of addresses, O for 0."""
    word, column = concept.ways[0].text, concept.ways[0].column
    if column == "when":
        return ()
    others = list(_SHORT_FOR.get(word, ()))
    if word.isalpha() and len(word) >= _SHORTEST_PLURAL:
        others.append(word.removesuffix("s") if word.endswith("s") else f"{word}s")
    if not word.isalpha() and not word.isdecimal():
        others.append(word.translate(_LIKE_FIGURES))
    return tuple(Sought(other, column=column, quality=0.95) for other in others if other != word)
