"""The papers a choice ends in: how many of which, who signs them, and what belongs in their pack."""

import tomllib
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import Any

from domain.forms.form_set import FormSet
from domain.source import Source
from domain.value import Value


class Paper(Value):
    """So many of one paper."""

    form_set: FormSet | None = None
    """None: a paper of another standard, or of none."""
    called: str
    count: int = 1


class Usual(Value):
    """What is the same each time a form set is used."""

    signatures: str
    apart: str = ""
    """Who signs where the parts of the work were done by different people."""
    pack: tuple[str, ...]
    source: Source


@cache
def usual() -> Mapping[FormSet, Usual]:
    """What goes with each form set."""
    data: dict[str, Any] = tomllib.loads(files("domain.forms.choice").joinpath("papers.toml").read_text("utf-8"))
    return {FormSet(name): Usual.model_validate(held) for name, held in data.items()}
