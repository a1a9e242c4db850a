"""The front of an Electrical Installation Condition Report."""

from domain.gate.assessment import count_codes
from domain.gate.outcome import Outcome
from domain.gate.report_outcome import asks_inspector, is_undecided, outcome_of
from domain.inspection.observation import BY_GRAVITY, Code
from domain.inspection.outcome_rule import outcome_rule
from domain.job.box import typed_in
from domain.sheets.enclosed import enclosed_in
from domain.sheets.facts import Facts
from domain.sheets.observations import observations_of
from domain.sheets.opening import client_of, identity_of, premises_of, subtitle_of
from domain.sheets.particulars import instruments_of, main_switch_of, supply_of
from domain.sheets.record import record_of
from domain.sheets.sheet import Banner, Block, Section, Sheet, SheetNote, TextSheet, Tone
from domain.sheets.signing import declarations_of

_STANDING_LIMITS = (
    "Cables hidden in the fabric of the building, under floors, in roof spaces or underground, and anything else that "
    "could not be reached without damage, have not been inspected unless the extent above says so."
)
_ADVICE = {
    Code.C1: "**C1, danger present:** act at once; whoever is responsible should not wait for anything else.",
    Code.C2: "**C2, potentially dangerous:** have it put right urgently.",
    Code.FI: "**FI, further investigation:** have it looked into without delay; it may hide a C1 or C2.",
    Code.C3: "**C3, improvement recommended:** consider it; safety would gain, and it does not decide the outcome.",
}


def report_front(facts: Facts, others: tuple[Sheet, ...]) -> TextSheet:
    """Outcome first, then section after section; `others` are the sheets that follow.

    Long because it is one list: the report in the order in which it is read.
    """
    # The letters are those of the model report in BS 7671 Appendix 6, from memory; what stands under them is worded here.
    blocks: tuple[Block, ...] = (
        identity_of(facts),
        _banner(facts),
        Section("A", "Who ordered the report"),
        client_of(facts),
        Section("B", "Why it was made"),
        facts.group("", (("report.reason", 2), "report.inspected_from", "report.inspected_on")),
        Section("C", "The installation"),
        premises_of(facts),
        Section("D", "Extent and limitations"),
        facts.group(
            "",
            ("report.extent",),
            ("report.agreed_limitations",),
            *facts.packed("report.agreed_with", "report.agreed_position", "report.operational_limitations"),
            note=_STANDING_LIMITS,
        ),
        Section("E", "Condition of the installation"),
        facts.group("", ("report.general_condition",)),
        *_decision(facts),
        Section("F", "What should be done, and when to inspect next"),
        _recommendations(facts),
        facts.group("", ("report.next_inspection", "report.interval_reason"), _sooner(facts)),
        Section("G", "Declarations"),
        *declarations_of(facts.job),
        Section("H", "Sheets that belong to this report"),
        *enclosed_in(others, facts.row("report.attachments"), paper="report"),
        Section("I", "Supply and earthing"),
        *supply_of(facts),
        Section("J", "Main switch and instruments"),
        main_switch_of(facts),
        instruments_of(facts),
        Section("K", "Observations"),
        *observations_of(facts),
    )
    record = record_of(facts)
    return TextSheet(
        facts.job.profile.title, subtitle_of(facts), (*blocks, *facts.left_over(blocks), *record), opens=True
    )


def _banner(facts: Facts) -> Banner:
    """The outcome, with the number of observations under each code. A draft is never called satisfactory."""
    counts = count_codes(facts.job)
    found = ", ".join(f"{count} coded {code}" for code, count in counts.items() if count)
    beneath = f"Observations: {found}." if found else "There is no observation."
    if counts[Code.FI]:
        beneath = f"{beneath} FI is to be investigated without delay, whatever the outcome."
    says, tone = _verdict(facts)
    return Banner("The installation, within the stated extent and limitations, is", says, beneath, tone)


def _verdict(facts: Facts) -> tuple[str, Tone]:
    outcome = outcome_of(facts.job)
    if facts.job.issued is None and (outcome is not Outcome.UNSATISFACTORY or is_undecided(facts.job)):
        return "NOT DECIDED YET", Tone.OPEN
    if outcome is Outcome.UNSATISFACTORY:
        return outcome.word.upper(), Tone.BAD
    return outcome.word.upper(), Tone.OPEN if outcome.is_to_put_right else Tone.GOOD


def _decision(facts: Facts) -> tuple[Block, ...]:
    """What the inspector decided where FI stands alone and its rule is contested, with both readings."""
    if not asks_inspector(facts.job):
        return ()
    rule = outcome_rule(facts.job.edition)
    readings = " ".join(f"One reading, {each.told}." for each in rule.readings)
    note = f"What FI alone makes of a report under {facts.job.edition_in_full} is contested. {readings}"
    rows = (("report.fi_alone", ("report.fi_alone_because", 2)),)
    return (facts.group("Outcome with FI alone, as the inspector decided", *rows, note=note),)


def _sooner(facts: Facts) -> tuple[str, ...]:
    """The days within which the report asks for urgent work, where it names any: the law's run without them."""
    return ("report.remedy_within",) if typed_in(facts.job.report, "remedy_within").strip() else ()


def _recommendations(facts: Facts) -> SheetNote:
    used = [code for code, count in count_codes(facts.job).items() if count]
    lines = [_ADVICE[code] for code in BY_GRAVITY if code in used]
    if not lines:
        nothing = "No remedial work is recommended." if facts.job.issued else "No observation is written yet."
        return SheetNote(nothing)
    dated = "The recommended date of the next inspection holds only if these matters are dealt with as advised."
    return SheetNote("\n\n".join((*lines, dated)))
