"""The front of an Electrical Installation Certificate."""

from domain.sheets.enclosed import enclosed_in
from domain.sheets.facts import Facts
from domain.sheets.opening import identity_of, people_of, subtitle_of
from domain.sheets.particulars import particulars_of
from domain.sheets.record import record_of
from domain.sheets.sheet import Block, Sheet, TextSheet
from domain.sheets.signing import declarations_of


def certificate_front(facts: Facts, others: tuple[Sheet, ...]) -> TextSheet:
    """Parties, work, declarations, particulars; `others` are the sheets that follow."""
    blocks: tuple[Block, ...] = (
        identity_of(facts),
        *people_of(facts),
        facts.group(
            "The work certified",
            ("work.kind", "work.completed_on", "work.next_inspection"),
            ("work.description",),
            ("work.extent",),
            *facts.packed("work.departures", "work.construction_departures", "work.inspection_departures"),
            *facts.packed("work.exceptions", "work.risk_assessment", "work.comments"),
        ),
        *declarations_of(facts.job),
        enclosed_in(others, facts.row("work.attachments"), paper="certificate"),
        *particulars_of(facts),
    )
    rest = facts.left_over(blocks, but=frozenset({"instruments", "signatories"}))
    return TextSheet(facts.job.profile.title, subtitle_of(facts), (*blocks, *rest, *record_of(facts)), opens=True)
