"""Guidance for the person who receives the paper, one text a form set."""

from functools import cache
from importlib.resources import files

from domain.forms.form_set import FormSet
from domain.sheets.facts import Facts
from domain.sheets.plain_words import certificate_in_short
from domain.sheets.sheet import Block, SheetNote, TextSheet

TITLE = "Guidance for recipients"


def guidance_for(facts: Facts) -> TextSheet:
    """What the paper means, what to do with it, and when to have the installation looked at again."""
    form_set = facts.job.form_set
    name = "report" if form_set.is_report else "certificate"
    in_short = () if form_set.is_report else certificate_in_short(facts)
    blocks: tuple[Block, ...] = (*in_short, *_parts(form_set))
    return TextSheet(TITLE, f"How to read this {name}, and what to do with it", blocks)


@cache
def _parts(form_set: FormSet) -> tuple[SheetNote, ...]:
    text = files("domain.sheets").joinpath("texts", f"{form_set.lower()}.md").read_text(encoding="utf-8")
    parts = [part.strip() for part in text.split("### ") if part.strip()]
    return tuple(
        SheetNote(body.strip(), heading.strip()) for heading, _, body in (part.partition("\n") for part in parts)
    )
