"""The entry that is open now, kept on every key, and those that an ended program left, taken up where they were."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from domain.log.half_typed import HalfTyped

if TYPE_CHECKING:
    from collections.abc import Mapping

    from tui.services import Services
    from tui.widgets.open_entry import OpenEntry


class Asked(NamedTuple):
    """What tells one question from another: the job it is about, its words, and what stood in its lines at first."""

    number: str
    question: str
    stood: Mapping[str, str]


class HalfTyping:
    """What a person has not kept yet, in a box or a question."""

    def __init__(self, services: Services) -> None:
        self._kept = services.half_typed

    def in_box(self, number: str, entry: OpenEntry | None) -> None:
        """A box of a job is typed into, or not any more."""
        if entry is None or (not entry.is_changed and entry.editor.text == entry.view.typed):
            self._kept.finish()
            return
        place = entry.view.place
        self._kept.keep(
            HalfTyped(
                number=number,
                place=place,
                stood={place.box: entry.view.typed},
                typed={place.box: entry.editor.text},
                cursor=entry.editor.cursor,
                fresh=entry.fresh,
                stepped=entry.stepped,
                led_by=entry.led_by,
            )
        )

    def in_question(self, asked: Asked, typed: Mapping[str, str]) -> None:
        """A question is typed into."""
        self._kept.keep(HalfTyped(**asked._asdict(), typed=typed))

    def settle(self) -> None:
        """The hands rest."""
        self._kept.settle()

    def finish(self) -> None:
        """It has been kept, or let be."""
        self._kept.finish()

    def left_in(self, number: str) -> HalfTyped | None:
        """What was left open in a job last."""
        return next((entry for entry in self._kept.left() if entry.number == number), None)

    def left_in_question(self, asked: Asked) -> HalfTyped | None:
        """What was left open in this question."""
        left = (entry for entry in self._kept.left() if entry.place is None)
        return next((entry for entry in left if (entry.number, entry.question, entry.stood) == asked), None)

    def forget(self, entry: HalfTyped) -> None:
        """It was taken up, or has nowhere to stand any more."""
        self._kept.forget(entry)
