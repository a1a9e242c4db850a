"""Draws screens of the program on the demonstration log, at a day that stands still."""

import re
import tempfile
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import replace
from datetime import UTC, datetime
from html import unescape
from pathlib import Path

from tests.tui.screens.services import services_in
from tui.app import OhmfolioApp
from tui.commands.demo import fill
from tui.router import screen_for

FOLDER = Path(__file__).parents[2] / "demo/pictures"
PICTURES: Mapping[str, tuple[str, ...]] = {
    "choice": ("a", "y", "1", "y"),
    "readings": ("down", "down", "enter", "f5", "down", *["right"] * 6),
    "held-back": ("down", "down", "down", "enter", "f8"),
    "due": ("f4",),
}
"""The keys from the first screen to each."""
_NOW = datetime(2026, 3, 16, 9, 0, tzinfo=UTC)
_TEXT = re.compile(r'<text class="[^"]*" x="([\d.]+)"[^>]*clip-path="url\(#[^)]*-line-(\d+)\)">([^<]*)</text>')
_FONTS = re.compile(r"@font-face \{.*?\}\s*", re.DOTALL)
_NAMES = re.compile(r"terminal-\d+")


async def drawn() -> dict[str, str]:
    """Each picture as SVG, by its name."""
    with tempfile.TemporaryDirectory() as folder:
        services = replace(services_in(Path(folder)), now=lambda: _NOW)
        fill(services)
        pictures = {
            name: await _picture(OhmfolioApp(services, screen_for), name, keys) for name, keys in PICTURES.items()
        }
        services.log.close()
    return pictures


async def _picture(app: OhmfolioApp, name: str, keys: tuple[str, ...]) -> str:
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        for key in keys:
            await pilot.press(key)
            await pilot.pause()
        svg = app.export_screenshot(title="Ohmfolio")
    # Fonts would be fetched from elsewhere, and the names differ from run to run.
    return _NAMES.sub(f"screen-{name}", _FONTS.sub("", svg))


def lines_of(svg: str) -> list[str]:
    """The lines of text that a picture shows."""
    lines: dict[int, list[tuple[float, str]]] = defaultdict(list)
    for across, line, text in _TEXT.findall(svg):
        lines[int(line)].append((float(across), unescape(text).replace("\N{NO-BREAK SPACE}", " ")))
    return [" ".join(text.strip() for _, text in sorted(lines[line]) if text.strip()) for line in sorted(lines)]
