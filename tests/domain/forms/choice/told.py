"""Cases as an electrician would tell them, read from their files."""

import tomllib
from pathlib import Path
from typing import Any

from domain.forms.choice.answers import Answers


def cases(kind: str) -> list[dict[str, Any]]:
    """Every case of the files whose name begins so."""
    return [
        case
        for path in sorted((Path(__file__).parents[3] / "cases").glob(f"{kind}_*.toml"))
        for case in tomllib.loads(path.read_text(encoding="utf-8"))["case"]
    ]


def answers_of(case: dict[str, Any]) -> Answers:
    """The answers a case gives."""
    return Answers.model_validate({name: case[name] for name in Answers.model_fields if name in case})
