"""Every way this checkout can be installed, tried for real: minutes, so it stands outside the suite.

`pytest -n 0 -rs tests/packaging/try_packages.py` says which were skipped because their tool is not here.
"""

import os
import shutil
import subprocess
import zipfile
from pathlib import Path

import pytest

from tui.version import VERSION

ROOT = Path(__file__).parents[2]
NEEDS_DAEMON = ("docker", "podman")


def ran(*typed: str | Path, **environment: str | Path) -> str:
    env = os.environ | {name: str(value) for name, value in environment.items()}
    env.pop("PYTHONPATH", None)
    done = subprocess.run(
        list(map(str, typed)), cwd="/", env=env, capture_output=True, text=True, timeout=1800, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


def tool(name: str) -> str:
    found = shutil.which(name)
    if not found:
        pytest.skip(f"{name} is not here, so that way of installing was NOT tried")
    return found


def works(program: Path, folder: Path) -> None:
    """It says its version, answers, and fills the demonstration log, papers and all."""
    assert ran(program, "--version").startswith(f"ohmfolio {VERSION}\n")
    assert "10 jobs" in ran(program, "demo", "--fill-only", OHMFOLIO_HOME=folder / "log")


def test_a_wheel_holds_the_program_and_the_demo_and_no_pictures(tmp_path: Path) -> None:
    ran(tool("python3"), "-m", "pip", "wheel", "--no-deps", "-w", tmp_path, ROOT)
    (wheel,) = tmp_path.glob("*.whl")
    names = zipfile.ZipFile(wheel).namelist()
    assert wheel.name.startswith(f"ohmfolio-{VERSION}-")
    assert "tui/demo_data/firm.toml" in names
    assert sum(name.startswith("tui/demo_data/jobs/") for name in names) == 10
    assert not any(name.endswith(".svg") or name.startswith("tests") for name in names)


def test_pipx_installs_a_checkout(tmp_path: Path) -> None:
    ran(tool("pipx"), "install", ROOT, PIPX_HOME=tmp_path / "home", PIPX_BIN_DIR=tmp_path / "bin")
    works(tmp_path / "bin/ohmfolio", tmp_path)


def test_uv_installs_a_checkout(tmp_path: Path) -> None:
    ran(tool("uv"), "tool", "install", ROOT, UV_TOOL_DIR=tmp_path / "tools", UV_TOOL_BIN_DIR=tmp_path / "bin")
    works(tmp_path / "bin/ohmfolio", tmp_path)


def test_a_debian_package_runs_wherever_it_is_unpacked(tmp_path: Path) -> None:
    unpack = tool("dpkg-deb")
    ran(ROOT / ".ci/debian", tmp_path)
    (package,) = tmp_path.glob("ohmfolio_*.deb")
    root = tmp_path / "root"
    ran(unpack, "-x", package, root)
    works(root / "usr/bin/ohmfolio", tmp_path)
    assert (root / "usr/share/bash-completion/completions/ohmfolio").exists()
    assert (root / "usr/share/man/man1/ohmfolio.1.gz").exists()


@pytest.mark.parametrize("name", NEEDS_DAEMON)
def test_a_container_is_built_and_answers(name: str) -> None:
    program = tool(name)
    if subprocess.run([program, "info"], capture_output=True, check=False).returncode:
        pytest.skip(f"{name} has no daemon here, so the container was NOT tried")
    ran(program, "build", "-f", ROOT / ".ci/Containerfile", "-t", "ohmfolio-tried", ROOT)
    assert ran(program, "run", "--rm", "ohmfolio-tried", "--version").startswith(f"ohmfolio {VERSION}\n")
