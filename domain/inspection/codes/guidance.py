"""Published guidance on classification, and how it is told."""

import tomllib
from collections.abc import Iterable
from functools import cache
from importlib.resources import files
from typing import Annotated, Any

from pydantic import Field

from domain.inspection.observation import Code
from domain.source import Source
from domain.value import Line, Value

_FI_IN_ISSUE_7 = "FI is contested: Issue 7 of the guide gives no examples of it."


class Guidance(Value):
    """What guidance says of one kind of observation. It is shown, never applied."""

    about: Line
    commonly: tuple[Code, ...] = ()
    """The codes the guidance names; none where it says that no code is given."""
    says: str
    """What the code hangs on."""
    words: Annotated[tuple[Line, ...], Field(min_length=1)]
    """What people write of it, beside the words of `about`: a few words each, any order."""
    items: tuple[str, ...] = ()
    """The inspection items it belongs to."""
    findings: tuple[str, ...] = ()
    """The failures of checks (`check.case`) that are of this kind."""
    found_on: str = ""
    """The section of a job they stand in, where that decides."""
    contested: bool = False
    source: Source

    def is_on(self, finding: str, section: str) -> bool:
        """It speaks of a failure, known by the row of its check, in a section of a job."""
        return finding in self.findings and self.found_on in {"", section}

    @property
    def codes_named(self) -> str:
        """`C1 or C2`, for a sentence; never which code this observation gets."""
        return " or ".join(self.commonly) or "no code by itself"

    @property
    def is_contested(self) -> bool:
        """Guides or inspectors differ over the code; over FI they do since the guide dropped its examples."""
        return self.contested or Code.FI in self.commonly

    @property
    def doubts(self) -> str:
        """What is said of a contested code, or nothing."""
        said = ["Contested."] if self.contested else []
        return " ".join([*said, _FI_IN_ISSUE_7] if Code.FI in self.commonly else said)

    @property
    def told(self) -> str:
        """One entry in a few words, with its source: never which code this observation gets."""
        parts = (f"{self.about}: guidance names {self.codes_named}.", self.doubts, self.says, f"({self.told_by})")
        return " ".join(part for part in parts if part)

    @property
    def told_by(self) -> str:
        """The source with its issue, and how far it can be trusted."""
        return f"{self.source.named}; {self.source.trust}"


@cache
def guidance() -> tuple[Guidance, ...]:
    """Every entry, in the order of its file."""
    data: dict[str, Any] = tomllib.loads(files("domain.inspection.codes").joinpath("guidance.toml").read_text("utf-8"))
    sources = {name: Source.model_validate(source) for name, source in data["source"].items()}
    return tuple(Guidance.model_validate(row | {"source": sources[row["source"]]}) for row in data["guidance"])


def guidance_on_items(items: Iterable[str]) -> tuple[Guidance, ...]:
    """The entries that belong to any of some inspection items."""
    numbers = frozenset(items)
    return tuple(each for each in guidance() if numbers & set(each.items))
