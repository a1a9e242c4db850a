"""The small forms that several screens open, and the commands their answers make."""

from collections.abc import Mapping
from datetime import date
from functools import partial

from domain.checks.shared.lifting import what_lifts
from domain.dates import written
from domain.editing.commands import ClearSnag, Explain, Observe, RaiseSnag, RecordAction
from domain.edition import Edition, edition_for
from domain.forms.choice.chosen import ChosenPapers
from domain.forms.form_set import FormSet
from domain.inspection.codes.guidance import Guidance
from domain.inspection.observation import Code, ImmediateAction, Observation
from domain.job.finding import Finding
from domain.job.job import Job
from domain.job.next_due import done_on
from domain.job.snag import Snag
from domain.place import Place
from domain.value import PROSE_MAX
from tui.screens.dialogs import FormScreen
from tui.screens.guidance_text import guidance_beside, items_in, words_taken
from tui.widgets.entry_lines import AskedLine, EntryOption

_CODE_KEYS = {Code.C1: "1", Code.C2: "2", Code.C3: "3", Code.FI: "F"}

DANGER = (
    "C1 means danger now: tell the duty holder at once and in writing; with their consent make it safe, or leave it"
    " isolated and labelled. Never leave it live without a word."
)


def other_papers_form(chosen: ChosenPapers | None) -> FormScreen:
    """Asks which form set is taken instead, and why."""
    advised = chosen.advised if chosen else None
    options = tuple(
        EntryOption(
            form_set.profile.letter, form_set, f"{form_set.profile.title}{' (advised)' if form_set is advised else ''}"
        )
        for form_set in FormSet
    )
    return FormScreen(
        "Which papers do you take?",
        (
            AskedLine("form_set", "Papers", chosen.form_set if chosen else "", must=True, options=options),
            AskedLine("because", "Because", chosen.because if chosen else "", must=True, limit=PROSE_MAX),
        ),
        "The reason is kept with the job and printed where it differs from the advice.",
    )


def edition_form(job: Job, today: date) -> FormScreen:
    """Asks which edition of BS 7671 the job is worked to, and says which one its day calls for."""
    day = done_on(job)
    options = tuple(EntryOption(_key_of(each), each, each) for each in Edition)
    done = "The day of the inspection" if job.form_set.profile.states_a_condition else "The day of completion"
    calls = f"{done}, {written(day)}," if day else "Today"
    decides = (
        "One edition for one report."
        if job.form_set.profile.states_a_condition
        else "The day on which the design began decides."
    )
    return FormScreen(
        "Which edition of BS 7671 is the job worked to?",
        (
            AskedLine("edition", "Edition", job.edition, must=True, options=options),
            AskedLine("named", "If earlier, which", job.edition_named),
        ),
        f"{calls} calls for {edition_for(day or today)}. {decides} The figures, the inspection items and the "
        "declarations follow it; an earlier one is named with its amendment, as the declaration prints it.",
    )


def _key_of(edition: Edition) -> str:
    """The figure of its amendment; E for an earlier one."""
    return edition.name[-1] if edition.name[-1].isdecimal() else edition.name[0]


def explanation_form(finding: Finding, who: str) -> FormScreen:
    """Asks why a reading that looks wrong is right."""
    lines = (AskedLine("reason", "Reason", must=True, limit=PROSE_MAX), AskedLine("by", "By", who, must=True))
    return FormScreen(finding.says, lines, f"{what_lifts(finding)}. It is printed beside the reading.")


def explained(finding: Finding, typed: Mapping[str, str], on: date) -> Explain:
    """The command an explanation form makes."""
    return Explain.of(finding, reason=typed["reason"], by=typed["by"], on=on)


def snag_form(who: str, *, where: str = "", what: str = "") -> FormScreen:
    """Asks what a new snag is."""
    return FormScreen(
        "A snag: what has to be put right before a certificate can exist",
        (
            AskedLine("what", "What", what, must=True, limit=PROSE_MAX),
            AskedLine("where", "Where", where),
            AskedLine("by", "Raised by", who, must=True),
        ),
    )


def raised(typed: Mapping[str, str], on: date, about: Place | None = None) -> RaiseSnag:
    """The command a snag form makes."""
    return RaiseSnag(what=typed["what"], where=typed["where"], by=typed["by"], on=on, about=about)


def clearing_form(snag: Snag, who: str) -> FormScreen:
    """Asks how a snag was put right."""
    return FormScreen(
        f"Clear: {snag.what}",
        (
            AskedLine("how", "How it was put right", must=True, limit=PROSE_MAX),
            AskedLine("by", "Cleared by", who, must=True),
        ),
        "Only what has been seen to be right is cleared; readings it affected are taken again.",
    )


def cleared(snag: Snag, typed: Mapping[str, str], on: date) -> ClearSnag:
    """The command a clearing form makes."""
    return ClearSnag(snag=snag.id, how=typed["how"], by=typed["by"], on=on)


def observation_form(
    before: Observation | None = None,
    *,
    code: Code | None = None,
    item: str = "",
    where: str = "",
    finding: str = "",
    known: Guidance | None = None,
) -> FormScreen:
    """Asks for an observation, or rewrites one. A code is shown picked only where the person picked it before.

    `known` is the guidance on the failure it is raised from.
    """
    options = tuple(EntryOption(key, each, f"{each}  {each.meaning}") for each, key in _CODE_KEYS.items())
    picked = code or (before.code if before else None)
    items = before.items if before else ()
    if item and item not in items:
        items = (*items, item)
    return FormScreen(
        "An observation: what was found, and its code by your own judgement",
        (
            AskedLine("finding", "Found", before.finding if before else finding, must=True, limit=PROSE_MAX),
            AskedLine("code", "Code", picked or "", must=True, options=options),
            AskedLine("where", "Where", before.where if before else where),
            AskedLine("items", "Items", ", ".join(items)),
            AskedLine("reason", "Why this code", before.reason if before else "", limit=PROSE_MAX),
        ),
        DANGER if picked is Code.C1 else "",
        beside=partial(guidance_beside, known=known, raised_as=finding),
        known=partial(words_taken, known=known, raised_as=finding),
    )


def observed(
    typed: Mapping[str, str],
    before: Observation | None = None,
    about: Place | None = None,
    answers: tuple[Place, ...] = (),
) -> Observe:
    """The command an observation form makes."""
    return Observe(
        observation=before.id if before else "",
        finding=typed["finding"],
        code=Code(typed["code"]),
        where=typed["where"],
        items=items_in(typed["items"]),
        about=before.about if before else about,
        reason=typed["reason"],
        answers=answers,
    )


def action_form(observation: Observation) -> FormScreen:
    """Asks what was done at once about a C1."""
    action = observation.action
    options = (EntryOption("Y", _MADE_SAFE, "it was made safe"), EntryOption("N", _LEFT, "it could not be made safe"))
    picked = "" if action is None else _MADE_SAFE if action.made_safe else _LEFT
    return FormScreen(
        f"C1, {observation.finding}: what was done at once?",
        (
            AskedLine("made_safe", "Made safe", picked, must=True, options=options),
            AskedLine("how", "How, or why not", action.how if action else "", must=True, limit=PROSE_MAX),
            AskedLine("told", "Who was told", action.told if action else "", must=True),
            AskedLine("told_at", "Told when", action.told_at if action else "", must=True),
        ),
        f"{DANGER} The observation is saved; this is printed with it.",
    )


_MADE_SAFE, _LEFT = "yes", "no"


def action_recorded(observation: Observation, typed: Mapping[str, str]) -> RecordAction:
    """The command the form about a C1 makes."""
    return RecordAction(
        observation=observation.id,
        action=ImmediateAction(
            made_safe=typed["made_safe"] == _MADE_SAFE,
            how=typed["how"],
            told=typed["told"],
            told_at=typed["told_at"],
        ),
    )
