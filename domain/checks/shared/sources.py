"""Sources beside the public supply: which of them a circuit brings in, and which a text names."""

import re
from collections.abc import Mapping
from functools import lru_cache

from domain.job.box import answers_in
from domain.job.circuit import Circuit
from domain.job.circuit_use import BATTERY, GENERATOR, SOLAR, SOURCES

_NAMES: Mapping[str, re.Pattern[str]] = {
    SOLAR: re.compile(r"\bpv\b|\bsolar\b|photo-?voltaic", re.IGNORECASE),
    BATTERY: re.compile(r"\bbatter(?:y|ies)\b|\bb?ess\b|\bstorage\b", re.IGNORECASE),
    GENERATOR: re.compile(r"\bgenerat(?:or|ing set)s?\b|\bgenset\b|\bturbine\b|\bchp\b", re.IGNORECASE),
}
_NO_SOURCE = re.compile(
    r"\bsolar (?:thermal|pump|water|tube)|\bstorage heat|\bsteam\b|\bbattery (?:charger|room|light)|emergency|\bcold store\b",
    re.IGNORECASE,
)
_LOADS = re.compile(
    r"(?<!battery )\bstorage\b(?! batter)|\bbatter(?:y|ies)\b(?!.*\b(?:storage|inverter|system)\b)", re.IGNORECASE
)
"""On a circuit, storage may be a room, and a battery what a charger or a clock has."""


def sources_brought_in(circuit: Circuit) -> frozenset[str]:
    """The sources a circuit feeds in, as its box says; while that is empty, as its description tells."""
    if circuit.feeds.strip():
        return SOURCES.intersection(answers_in(circuit.feeds))
    return sources_told(circuit.description)


@lru_cache(maxsize=1024)
def sources_told(description: str) -> frozenset[str]:
    """The sources that the description of a circuit tells of."""
    if _NO_SOURCE.search(description):
        return frozenset()
    named = sources_named(description)
    return named - {BATTERY} if _LOADS.search(description) else named


def sources_named(text: str) -> frozenset[str]:
    """The sources that a text names, by its words."""
    return frozenset(source for source, words in _NAMES.items() if words.search(text))
