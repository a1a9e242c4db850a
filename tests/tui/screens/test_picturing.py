"""Pictures taken in from the folder of the visit or by path, shown by name, size and day, and taken out again."""

import os
from pathlib import Path

from domain.inspection.observation import Code
from domain.place import Place
from tests.builders import complete_report
from tests.camera import camera_file
from tests.tui.screens.services import app_in
from tests.tui.screens.shown import lines_of, text_of


async def test_a_picture_of_the_visit_is_offered_taken_in_and_taken_out_again(tmp_path: Path) -> None:
    camera = tmp_path / "camera"
    camera.mkdir()
    for at, name in enumerate(("IMG_1.jpg", "IMG_2.JPG", "notes.txt")):
        (camera / name).write_bytes(camera_file(400, 300))
        os.utime(camera / name, (1_772_000_000 + at, 1_772_000_000 + at))
    app = app_in(tmp_path, complete_report(Code.C2))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("enter", "f7", "t")
        await pilot.pause()
        assert "IMG_2.JPG, IMG_1.jpg" in " ".join(text_of(app).replace("│", " ").split())
        await pilot.press("enter", *"Scorched neutral", "ctrl+o")
        await app.workers.wait_for_complete()
        await pilot.pause()
        (kept,) = app.services.log.load("A-0001").pictures
        assert (kept.name, kept.caption, kept.kind) == ("IMG_2.JPG", "Scorched neutral", "photograph")
        assert kept.about == Place(observation=app.screen.job.observations[0].id)
        assert "IMG_2.JPG, 300 × 400" in text_of(app)
        assert "2 March 2026" in text_of(app)
        await pilot.press("x", "y")
        await pilot.pause()
        assert app.services.log.load("A-0001").pictures == ()


async def test_a_file_that_is_no_picture_and_a_place_that_is_not_there_are_said(tmp_path: Path) -> None:
    (tmp_path / "minutes.jpg").write_text("Minutes of the meeting")
    app = app_in(tmp_path, complete_report(Code.C2))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("enter", "f6", "t", *str(tmp_path / "minutes.jpg"), "enter", *"What it shows", "ctrl+o")
        await app.workers.wait_for_complete()
        await pilot.pause()
        assert "no JPEG or PNG" in " ".join(lines_of(app)[20:23])
        await pilot.press("t", *"nowhere.jpg", "enter", *"The board", "enter", "enter", *"board Nowhere", "ctrl+o")
        await pilot.pause()
        assert "Nothing here is called 'board Nowhere'" in text_of(app)
    assert app.services.log.load("A-0001").pictures == ()
