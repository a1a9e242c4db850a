"""Drafts laid aside, and how somebody comes back to one."""

from domain.editing.commands import Declined, LayAside
from tui.keys import key_name
from tui.services import Services

FOUND_AGAIN = (
    f"{key_name('find')}, then {key_name('find-list')}, lists such drafts;"
    f" {key_name('issue')} {key_name('lay-aside')} takes one up again"
)


def laid_aside(desk: Services, number: str) -> str:
    """Lay a draft of the log aside, and say so, or why it cannot be; raises what the log raises."""
    changed = desk.log.edit(number, LayAside(), who=desk.who, at=desk.now())
    return changed.says if isinstance(changed, Declined) else f"{number} laid aside. {FOUND_AGAIN}"
