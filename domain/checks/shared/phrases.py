"""The sentences of the checks, and the parts of sentences that several of them share."""

from collections.abc import Mapping, Sequence
from decimal import Decimal

from domain.job.catalogue import Sentence, catalogue_of

SENTENCES: Mapping[str, Sentence] = catalogue_of("domain.checks")
"""Every sentence a check can say, by `check.case`; the parts they share stand under `phrase`."""


def phrase(name: str, /, **values: Decimal | str | int) -> str:
    """A part of a sentence, from the catalogue."""
    return SENTENCES[f"phrase.{name}"].says.format_map(values)


def listed(names: Sequence[str], joined_by: str = "list-and") -> str:
    """Several names as a sentence has them: `1, 2 and 5`."""
    *most, last = names
    return phrase(joined_by, most=", ".join(most), last=last) if most else last
