"""Guidance for the person who receives the paper, one text a form set."""

from functools import cache
from importlib.resources import files

from domain.sheets.facts import Facts
from domain.sheets.plain_words import certificate_in_short
from domain.sheets.sheet import Block, SheetNote, TextSheet

TITLE = "Guidance for recipients"


def guidance_for(facts: Facts) -> TextSheet:
    """What the paper means, what to do with it, and when to have the installation looked at again."""
    profile = facts.job.profile
    in_short = () if profile.states_a_condition else certificate_in_short(facts)
    blocks: tuple[Block, ...] = (*in_short, *_parts(profile.guidance), *_required(facts))
    return TextSheet(TITLE, f"How to read this {profile.kind}, and what to do with it", blocks)


def _required(facts: Facts) -> tuple[SheetNote, ...]:
    """Of a report under an edition that asks for such guidance: that this is our own text, and not its model."""
    job = facts.job
    asking = next((each for each in job.edition.lineage if each.facts.of_guidance), None)
    if not (job.profile.states_a_condition and asking):
        return ()
    says = (
        f"{asking} {asking.facts.of_guidance}. These pages are worded here; "
        "its model text has not been read: not re-checked."
    )
    return (SheetNote(says, "Where this text comes from"),)


@cache
def _parts(name: str) -> tuple[SheetNote, ...]:
    text = files("domain.sheets").joinpath("texts", f"{name}.md").read_text(encoding="utf-8")
    parts = [part.strip() for part in text.split("### ") if part.strip()]
    return tuple(
        SheetNote(body.strip(), heading.strip()) for heading, _, body in (part.partition("\n") for part in parts)
    )
