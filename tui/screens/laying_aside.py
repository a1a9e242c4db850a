"""Drafts laid aside, and how somebody comes back to one."""

from collections.abc import Callable

from domain.editing.commands import Declined, LayAside, TakeUp
from tui.keys import key_name
from tui.screens.job_session import JobSession
from tui.services import Services

FOUND_AGAIN = (
    f"{key_name('find')}, then {key_name('find-list')}, lists such drafts;"
    f" {key_name('issue')} {key_name('lay-aside')} takes one up again"
)


def turn_aside(session: JobSession, say: Callable[[str], None]) -> None:
    """Lay the open draft aside, or take it up again."""
    if session.begun:
        say("Nothing has been typed into this job yet; leaving it leaves nothing behind")
        return
    is_aside = bool(session.job and session.job.laid_aside)
    if session.do(TakeUp() if is_aside else LayAside()):
        say("Taken up again" if is_aside else f"Laid aside. {FOUND_AGAIN}")


def laid_aside(services: Services, number: str) -> str:
    """Lay a draft of the log aside, and say so, or why it cannot be; raises what the log raises."""
    changed = services.log.edit(number, LayAside(), who=services.who, at=services.now())
    return changed.says if isinstance(changed, Declined) else f"{number} laid aside. {FOUND_AGAIN}"
