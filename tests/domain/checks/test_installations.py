"""Whole small installations in, findings out."""

from typing import Any

import pytest

from tests.domain.checks.installations import CASES, found_in


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["job"])
def test_an_installation_has_these_findings_and_no_others(case: dict[str, Any]) -> None:
    found = found_in(case)
    expected = [tuple(part.strip() for part in line.split("|")) for line in case.get("finds", ())]
    assert [each[:2] for each in found] == [each[:2] for each in expected], found
    for (_, _, says), (_, _, words) in zip(found, expected, strict=True):
        assert words in says


def test_there_are_sound_installations_of_several_kinds() -> None:
    sound = [case["name"] for case in CASES if "name" in case and not case.get("finds")]
    assert len(sound) >= 5
