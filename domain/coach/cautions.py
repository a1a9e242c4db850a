"""The cautions that stand beside everything that can hurt someone, as data."""

import tomllib
from collections.abc import Mapping
from functools import cache
from importlib.resources import files


@cache
def cautions() -> Mapping[str, str]:
    """Every caution by its name."""
    return tomllib.loads(files("domain.coach").joinpath("cautions.toml").read_text(encoding="utf-8"))
