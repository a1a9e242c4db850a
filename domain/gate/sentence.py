"""What the gate says of gaps, conflicts and reasons, from its catalogue."""

from domain.job.catalogue import catalogue_of
from domain.job.finding import Gap
from domain.place import Place

_ROOM = "domain.gate"


def said(name: str, /, **values: str) -> str:
    """A sentence of the gate, by its id in the catalogue."""
    return catalogue_of(_ROOM)[name].says.format_map(values)


def gap(kind: str, place: Place, **values: str) -> Gap:
    """A gap of one kind at a place, said with its row of the catalogue."""
    return Gap(kind=kind, place=place, values=values, says=said(f"gap.{kind}", **values))
