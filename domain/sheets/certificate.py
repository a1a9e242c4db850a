"""The front of an Electrical Installation Certificate."""

from domain.sheets.enclosed import enclosed_in
from domain.sheets.facts import Facts
from domain.sheets.opening import client_of, identity_of, premises_of, subtitle_of
from domain.sheets.particulars import instruments_of, main_switch_of, supply_of
from domain.sheets.record import record_of
from domain.sheets.sheet import Block, Section, Sheet, TextSheet
from domain.sheets.signing import declarations_of


def certificate_front(facts: Facts, others: tuple[Sheet, ...]) -> TextSheet:
    """Parties, work, declarations, particulars; `others` are the sheets that follow."""
    blocks: tuple[Block, ...] = (
        identity_of(facts),
        Section("A", "Who ordered the work"),
        client_of(facts),
        Section("B", "Where the work is"),
        premises_of(facts),
        Section("C", "The work certified"),
        facts.group(
            "",
            ("work.kind", "work.completed_on", ("work.next_inspection", 2)),
            ("work.description",),
            ("work.extent",),
            *facts.packed("work.departures", "work.construction_departures", "work.inspection_departures"),
            *facts.packed("work.exceptions", "work.risk_assessment", "work.comments"),
        ),
        Section("D", "Declarations"),
        *declarations_of(facts.job),
        Section("E", "Sheets that belong to this certificate"),
        *enclosed_in(others, facts.row("work.attachments"), paper="certificate"),
        Section("F", "Supply and earthing"),
        *supply_of(facts),
        Section("G", "Main switch and instruments"),
        main_switch_of(facts),
        instruments_of(facts),
    )
    rest = facts.left_over(blocks, but=frozenset({"instruments", "signatories", "firm"}))
    return TextSheet(facts.job.profile.title, subtitle_of(facts), (*blocks, *rest, *record_of(facts)), opens=True)
