"""Several boxes filled at once: a column pasted from elsewhere, or details taken down a schedule; each after a question."""

from collections.abc import Sequence
from dataclasses import dataclass

from domain.editing.commands import Enter, Fill
from domain.editing.fill_down import OWN
from domain.job.board import Board
from domain.job.box import boxes_of, typed_in
from domain.job.circuit import DETAIL_BOXES, Circuit
from domain.job.job import Job
from domain.job.place_in_words import owner_at
from tui.screens.dialogs import FormScreen
from tui.widgets.box_view import BoxView
from tui.widgets.entry_lines import AskedLine, EntryOption

_SHOWN_MOST = 5


@dataclass(frozen=True, slots=True)
class Filling:
    """Texts for boxes below one another, and what is asked before; an empty line leaves its box as it is."""

    command: Fill
    question: str
    about: str


def filling_of(rows: Sequence[Sequence[BoxView]], texts: Sequence[str]) -> Filling | str:
    """The pasted lines on the boxes from the cursor down, tabs between cells, or why they cannot be taken."""
    lines = [text.split("\t") for text in texts]
    if len(lines) > len(rows):
        return f"{len(lines)} lines were pasted, but only {len(rows)} circuits stand from here down. Nothing was filled"
    if (across := max(map(len, lines), default=0)) > len(rows[0]):
        return f"{across} columns were pasted, but only {len(rows[0])} stand from here on. Nothing was filled"
    pairs = [
        (view, text.strip())
        for row, line in zip(rows, lines, strict=False)
        for view, text in zip(row, line, strict=False)
        if text.strip()
    ]
    if not pairs:
        return "Only empty lines were pasted; nothing was filled"
    replaced = sum(view.typed not in {"", text} for view, text in pairs)
    shown = ", ".join(text for _, text in pairs[:_SHOWN_MOST])
    more = f" and {len(pairs) - _SHOWN_MOST} more" if len(pairs) > _SHOWN_MOST else ""
    first, last = pairs[0][0].whose, pairs[-1][0].whose
    return Filling(
        command=Fill(entries=tuple(Enter(place=view.place, text=text) for view, text in pairs)),
        question=f"Fill {_columns(rows[0][:across])} from {first} down to {last}?",
        about=f"{shown}{more}. {f'{replaced} hold another text now, which goes. ' if replaced else ''}"
        "Each is kept as if it had been typed, and checked.",
    )


def _columns(views: Sequence[BoxView]) -> str:
    return views[0].label if len(views) == 1 else f"{len(views)} columns, {views[0].label} to {views[-1].label},"


def down_to(board: Board, circuit: Circuit, view: BoxView, group: tuple[str, tuple[str, ...]]) -> FormScreen:
    """Asks how far down, and which boxes, circuits are filled like this one: its box, its group, or all details."""
    title, together = group
    sets = (
        (view.label, (view.place.box,)),
        (f"{title}: {{}}", tuple(name for name in together if name not in OWN)),
        ("All details but points and length", tuple(name for name in DETAIL_BOXES if name not in OWN)),
    )
    of_details = view.place.box in DETAIL_BOXES
    offered = {
        " ".join(names): _shown(label, circuit, names) for label, names in sets[: 3 if of_details else 1] if names
    }
    options = tuple(EntryOption(str(at), names, label) for at, (names, label) in enumerate(offered.items(), start=1))
    lines = (
        AskedLine("to", "Down to circuit", board.circuits[-1].number),
        AskedLine("boxes", "Fill", view.place.box, options=options),
    )
    about = f"The circuits below {circuit.name}, as it stands. Spare ways are left out; readings are never filled."
    return FormScreen("Fill down how far?", lines, about)


def replaced_by(job: Job, command: Fill) -> int:
    """Boxes that hold a text which the filling puts another in place of."""
    owners = ((owner_at(job, entry.place), entry.place.box) for entry in command.entries)
    return sum(bool(owner is not None and typed_in(owner, box)) for owner, box in owners)


def counted(command: Fill) -> str:
    """How many boxes are filled."""
    count = len(command.entries)
    return f"{count} box{'' if count == 1 else 'es'}"


def _shown(label: str, circuit: Circuit, names: Sequence[str]) -> str:
    if len(names) > 1:
        return label.format(", ".join(boxes_of(Circuit)[name].heading for name in names))
    return f"{label}: {typed_in(circuit, names[0]) or 'empty'}"
