"""Papers that stand beside a form set, or in its place, whichever rule decided: as data."""

import tomllib
from functools import cache
from importlib.resources import files
from typing import Any

from domain.forms.choice.condition import Conditional
from domain.source import Source


class PaperBeside(Conditional):
    """One paper, when it is needed, and what to mind with it."""

    called: str
    caution: str = ""
    source: Source


@cache
def papers_beside() -> tuple[PaperBeside, ...]:
    """Every row, in the order in which the papers are named."""
    data: dict[str, Any] = tomllib.loads(files("domain.forms.choice").joinpath("beside.toml").read_text("utf-8"))
    return tuple(PaperBeside.model_validate(row) for row in data["paper"])
