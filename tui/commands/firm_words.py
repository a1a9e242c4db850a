"""What the commands between an office and its laptops share: the firm of a log, and what came of an exchange, in words."""

from collections.abc import Iterable, Sequence

from domain.laptops.bundle import Exchanged
from domain.log.job_log import JobLogError
from domain.log.laptops import Laptops
from tui.services import Services

_TOLD_MAX = 6


def laptops_of(services: Services) -> Laptops:
    """The firm that the log may be of; JobLogError where its keeper has no place for one."""
    if (laptops := services.log.laptops) is None:
        raise JobLogError("This log has no place for laptops.")
    return laptops


def exchanged_in_words(met: Iterable[Exchanged]) -> list[str]:
    """A line for each bundle."""
    return [_line(each) for each in met]


def listed(numbers: Sequence[str]) -> str:
    """The first few of them, and how many more there are."""
    more = f" and {len(numbers) - _TOLD_MAX} more" if len(numbers) > _TOLD_MAX else ""
    return ", ".join(numbers[:_TOLD_MAX]) + more


def _line(met: Exchanged) -> str:
    if met.put_back:
        return (
            f"! {met.sender} has heard more of this log than it knows itself: it was put back from a copy. It goes on under "
            "other letters; exchange once more"
        )
    if met.is_gap:
        return f"From {met.sender}: a bundle before this one is still under way; nothing was taken in, the next one holds it all"
    if not met.new:
        return f"From {met.sender}: nothing new"
    jobs = listed(met.jobs)
    aside = f"; ! {met.aside} set aside, see ohmfolio settle" if met.aside else ""
    return f"✓ From {met.sender}: {met.new} new{f', of {jobs}' if jobs else ''}{aside}"
