"""Asks for the circuits of several minor works from one visit, and once for what they share."""

from collections.abc import Mapping

from domain.editing.visit import SHARED
from domain.job.box import boxes_of
from domain.job.job import SECTIONS
from domain.place import Place
from domain.value import PROSE_MAX, cleaned
from tui.screens.dialogs import FormScreen
from tui.widgets.entry_lines import AskedLine


def several_form() -> FormScreen:
    """One line for the circuits, and one for each box they share."""
    lines = [AskedLine("circuits", "Circuits, with commas", must=True, limit=PROSE_MAX)]
    lines += [AskedLine(_name(place), boxes_of(SECTIONS[place.section])[place.box].label) for place in SHARED]
    return FormScreen(
        "A minor works for each circuit",
        tuple(lines),
        "Name the circuits, such as: ring downstairs, lights upstairs. The rest is put on each of them; readings are not.",
    )


def circuits_in(typed: Mapping[str, str]) -> tuple[str, ...]:
    """The circuits that were named."""
    return tuple(name for part in cleaned(typed["circuits"]).split(",") if (name := part.strip()))


def shared_in(typed: Mapping[str, str]) -> Mapping[Place, str]:
    """What was typed for the boxes they share."""
    return {place: typed[_name(place)] for place in SHARED if typed[_name(place)]}


def _name(place: Place) -> str:
    return f"{place.section}.{place.box}"
