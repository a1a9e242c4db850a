"""The rooms that can be mutated."""

import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import Any


def rooms() -> Mapping[str, Any]:
    """By name, as rooms.toml has them."""
    return tomllib.loads(Path(__file__).with_name("rooms.toml").read_text(encoding="utf-8"))
