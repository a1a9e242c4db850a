"""The rooms keep apart: who may import whom, and whose names they are."""

import subprocess
import sys
from importlib.metadata import packages_distributions
from pathlib import Path

ROOT = Path(__file__).parents[2]


def test_the_import_contracts_hold() -> None:
    checked = subprocess.run(
        [Path(sys.executable).with_name("lint-imports"), "--no-cache"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )
    assert checked.returncode == 0, checked.stdout + checked.stderr


def test_no_other_distribution_owns_a_name_of_ours() -> None:
    owners = packages_distributions()
    assert {owner for room in ("tui", "domain", "storage") for owner in owners.get(room, ())} <= {"ohmfolio"}
