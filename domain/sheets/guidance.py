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
    blocks: tuple[Block, ...] = (*in_short, *_parts(profile.guidance))
    return TextSheet(TITLE, f"How to read this {profile.kind}, and what to do with it", blocks)


@cache
def _parts(name: str) -> tuple[SheetNote, ...]:
    text = files("domain.sheets").joinpath("texts", f"{name}.md").read_text(encoding="utf-8")
    parts = [part.strip() for part in text.split("### ") if part.strip()]
    return tuple(
        SheetNote(body.strip(), heading.strip()) for heading, _, body in (part.partition("\n") for part in parts)
    )
