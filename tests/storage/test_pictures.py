"""Camera files made small: read in a process of its own, kept without what the camera wrote, anything else refused."""

from io import BytesIO

import pytest
from PIL import Image

from domain.job.picture import IMAGE_MAX, PictureError
from domain.job.picture import Image as Kept
from storage.pictures import FILE_MAX, answer, made_small
from tests.camera import camera_file

pytestmark = pytest.mark.usefixtures("processes_part")


def test_a_camera_file_is_kept_small_upright_and_without_its_place() -> None:
    given = camera_file()
    assert b"Exif" in given
    image = made_small(given)
    assert (image.width, image.height) == (750, 1000)
    assert image.taken == "2026-03-02"
    assert len(image.content) <= IMAGE_MAX
    kept = Image.open(BytesIO(image.content))
    assert (kept.format, kept.size, dict(kept.getexif())) == ("JPEG", (750, 1000), {})
    assert b"Exif" not in image.content


def test_a_file_full_of_detail_is_made_smaller_until_it_fits() -> None:
    made = BytesIO()
    Image.effect_noise((1600, 1200), 120).convert("RGB").save(made, "JPEG", quality=95)
    image = Kept.model_validate_json(answer(made.getvalue()))
    assert len(image.content) <= IMAGE_MAX
    assert max(image.width, image.height) < 1000


def test_a_drawing_with_clear_parts_is_put_on_white() -> None:
    made = BytesIO()
    Image.new("RGBA", (40, 30), (0, 0, 0, 0)).save(made, "PNG")
    image = made_small(made.getvalue())
    point = Image.open(BytesIO(image.content)).getpixel((20, 15))
    assert isinstance(point, tuple)
    assert min(point) > 250
    assert image.taken == ""


def _gif() -> bytes:
    made = BytesIO()
    Image.new("RGB", (40, 30)).save(made, "GIF")
    return made.getvalue()


def _vast() -> bytes:
    made = BytesIO()
    Image.new("1", (12_000, 12_000)).save(made, "PNG")
    return made.getvalue()


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"", "no JPEG or PNG"),
        (b"Minutes of the meeting", "no JPEG or PNG"),
        (b"%PDF-1.7", "no JPEG or PNG"),
        (_gif(), "no JPEG or PNG"),
        (camera_file()[:4000], "no JPEG or PNG"),
        (_vast(), "more points"),
    ],
    ids=["nothing", "text", "a paper", "another kind", "cut off", "vast"],
)
def test_anything_else_is_refused_in_plain_words(content: bytes, says: str) -> None:
    with pytest.raises(PictureError, match=says):
        made_small(content)


def test_a_file_beyond_all_cameras_is_not_even_looked_at() -> None:
    with pytest.raises(PictureError, match="larger than"):
        made_small(bytes(FILE_MAX + 1))
