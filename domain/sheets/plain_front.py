"""The front of papers that bring no front of their own: every box they ask for, as the pages of a job have them."""

from domain.sheets.enclosed import enclosed_in
from domain.sheets.facts import Facts
from domain.sheets.opening import client_of, identity_of, premises_of, subtitle_of
from domain.sheets.record import record_of
from domain.sheets.sheet import Block, Sheet, TextSheet
from domain.sheets.signing import declarations_of


def plain_front(facts: Facts, others: tuple[Sheet, ...]) -> TextSheet:
    """Parties, whatever else is asked, declarations; `others` are the sheets that follow."""
    parties = tuple(group for group in (client_of(facts), premises_of(facts)) if group.rows)
    opening = (identity_of(facts), *parties)
    rest = facts.left_over(opening, but=frozenset({"firm"}))
    enclosed = enclosed_in(others, (), paper=facts.job.profile.kind)
    blocks: tuple[Block, ...] = (*opening, *rest, *declarations_of(facts.job), *enclosed)
    return TextSheet(facts.job.profile.title, subtitle_of(facts), (*blocks, *record_of(facts)), opens=True)
