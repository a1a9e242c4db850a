"""Draws the pictures of the README anew."""

import asyncio

from tests.pictures.drawing import FOLDER, drawn
from tui.screens.box_work import BoxWork

BoxWork.RESTS_AFTER = 0  # the panel speaks at once; nobody types on
FOLDER.mkdir(exist_ok=True)
for name, svg in asyncio.run(drawn()).items():
    (FOLDER / f"{name}.svg").write_text(svg, encoding="utf-8")
