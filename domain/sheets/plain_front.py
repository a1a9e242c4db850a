"""The front of papers that bring no front of their own: every box they ask for, as the pages of a job have them."""

from domain.sheets.enclosed import counted
from domain.sheets.facts import Facts
from domain.sheets.opening import identity_of, people_of, subtitle_of
from domain.sheets.record import record_of
from domain.sheets.sheet import Block, Sheet, TextSheet
from domain.sheets.signing import declarations_of


def plain_front(facts: Facts, others: tuple[Sheet, ...]) -> TextSheet:
    """Parties, whatever else is asked, declarations; `others` are the sheets that follow."""
    opening = (identity_of(facts, *counted(others)), *(group for group in people_of(facts) if group.rows))
    blocks: tuple[Block, ...] = (*opening, *facts.left_over(opening, but=frozenset()), *declarations_of(facts.job))
    return TextSheet(facts.job.profile.title, subtitle_of(facts), (*blocks, *record_of(facts)), opens=True)
