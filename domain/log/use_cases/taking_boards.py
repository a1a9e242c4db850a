"""One visit that two people tested, board by board: the boards of the one job taken into the other, in one transaction."""

from datetime import datetime

from domain.editing.audit_text import audit_text
from domain.editing.board_commands import TakeBoards
from domain.editing.commands import Declined, LayAside
from domain.editing.reducer import apply
from domain.editing.taking_boards import boards_of
from domain.editing.undo import kept
from domain.job.job import Job
from domain.laptops.matter import MatterKind
from domain.laptops.settling import leave
from domain.log.store import Store, TrailEntry
from domain.log.use_cases.out_with import exchange_of, is_laptop, why_out
from domain.log.use_cases.stored import keep, require

_WHICH_GOES_ON = (MatterKind.TWINS, MatterKind.COPIED)


def take_boards(store: Store, number: str, other: str, *, who: str, at: datetime) -> TakeBoards | Declined:
    """Take the boards of another job into one, and lay that aside; both must be here to change. What was taken, or why not."""
    with store.transaction(*sorted({number, other})):
        into, out_of = require(store, number), require(store, other)
        if why := why_out(store, number) or why_out(store, other):
            return Declined(says=why)
        command = boards_of(into.job, out_of.job)
        after = command if isinstance(command, Declined) else apply(into.job, command)
        if isinstance(command, Declined) or isinstance(after, Declined):
            return after if isinstance(after, Declined) else Declined(says="")
        says = audit_text(into.job, command)
        keep(store, into, after, TrailEntry(who, at, says, command=command, changes=kept(into.job, after)))
        _laid_aside(store, other, number, who, at)
        return command


def _laid_aside(store: Store, other: str, number: str, who: str, at: datetime) -> None:
    before = require(store, other)
    aside = apply(before.job, LayAside())
    if isinstance(aside, Job) and aside != before.job:
        says = f"Laid aside, since its boards are in {number}"
        keep(store, before, aside, TrailEntry(who, at, says, command=LayAside(), changes=kept(before.job, aside)))
    exchange = exchange_of(store)
    if exchange is None or is_laptop(store):
        return
    # Which of two goes on was asked: this one does not, whichever other it was held against.
    answered = [each for each in exchange.matters() if each.kind in _WHICH_GOES_ON and other in (each.job, each.other)]
    for each in answered:
        leave(exchange, each, 1, at=at.isoformat())
