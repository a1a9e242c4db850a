"""A column pasted from elsewhere: which box takes which text, and what is asked before."""

from collections.abc import Sequence
from dataclasses import dataclass

from domain.place import Place
from tui.widgets.box_view import BoxView

_SHOWN_MOST = 5


@dataclass(frozen=True, slots=True)
class Filling:
    """Texts for boxes below one another; an empty line leaves its box as it is."""

    boxes: tuple[tuple[Place, str], ...]
    question: str
    about: str


def filling_of(views: Sequence[BoxView], texts: Sequence[str]) -> Filling | str:
    """The pasted texts on the boxes from the cursor down, or why they cannot be taken."""
    if any("\t" in text for text in texts):
        return "More than one column was pasted; paste one column at a time. Nothing was filled"
    if len(texts) > len(views):
        return (
            f"{len(texts)} lines were pasted, but only {len(views)} circuits stand from here down. Nothing was filled"
        )
    pairs = [(view, text.strip()) for view, text in zip(views, texts, strict=False) if text.strip()]
    if not pairs:
        return "Only empty lines were pasted; nothing was filled"
    replaced = sum(view.typed not in {"", text} for view, text in pairs)
    shown = ", ".join(text for _, text in pairs[:_SHOWN_MOST])
    more = f" and {len(pairs) - _SHOWN_MOST} more" if len(pairs) > _SHOWN_MOST else ""
    first, last = pairs[0][0].whose, pairs[-1][0].whose
    return Filling(
        boxes=tuple((view.place, text) for view, text in pairs),
        question=f"Fill {views[0].label} from {first} down to {last}?",
        about=f"{shown}{more}. {f'{replaced} hold another text now, which goes. ' if replaced else ''}"
        "Each is kept as if it had been typed, and checked.",
    )
