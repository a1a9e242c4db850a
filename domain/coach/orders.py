"""What is done one after the other: the order of tests, and the steps of safe isolation, as data."""

import tomllib
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import Annotated, Any

from pydantic import Field

from domain.source import Source
from domain.value import Value


class OrderStep(Value):
    """One step."""

    id: str
    says: str


class Order(Value):
    """Steps in their order, and where the order comes from."""

    source: Source
    after_failing: str = ""
    """What is done once a step that failed was mended."""
    steps: Annotated[tuple[OrderStep, ...], Field(alias="step", min_length=2)]

    def at(self, step: str) -> int:
        """The position of a step."""
        return [each.id for each in self.steps].index(step)


@cache
def orders() -> Mapping[str, Order]:
    """Every list by its name."""
    data: dict[str, Any] = tomllib.loads(files("domain.coach").joinpath("orders.toml").read_text(encoding="utf-8"))
    return {name: Order.model_validate(table) for name, table in data.items()}
