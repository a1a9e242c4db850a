"""Photographs as they come from a camera made small enough for a record, in a process of its own: it trusts none of them."""

from io import BytesIO
from typing import Any

from domain.job.picture import IMAGE_MAX, Image, PictureError, image_of
from storage.read_apart import made_apart, refused

FILE_MAX = 40 * 1024 * 1024
"""Bytes of a file that is looked at."""
_SIDES = (1000, 800, 640, 480)
"""Points of the longer side, the largest first that can be kept small enough."""
_QUALITIES = (80, 65, 50, 35)
_POINTS_MAX = 120_000_000
_EXIF, _TAKEN = 0x8769, (0x9003, 306)
_REFUSED = "It is no JPEG or PNG that can be read, so it is no picture for a record"


def made_small(content: bytes) -> Image:
    """The image of a JPEG or PNG, small, upright and without what the camera wrote beside it. PictureError for anything else."""
    return Image.model_validate(made_apart(f"{__name__}:answer", content, FILE_MAX, PictureError, _REFUSED))


def answer(content: bytes) -> bytes:
    """The small image, or why there is none, as JSON; called in the process of its own."""
    try:
        return _small(content).model_dump_json().encode()
    except PictureError as error:
        return refused(error)


def _small(content: bytes) -> Image:
    from PIL import Image as Pillow
    from PIL import ImageOps

    Pillow.MAX_IMAGE_PIXELS = None
    try:
        with Pillow.open(BytesIO(content), formats=("JPEG", "PNG")) as opened:
            if opened.width * opened.height > _POINTS_MAX:
                raise PictureError("It has more points than a camera's picture; make it smaller first")
            day = _day_in(opened)
            opened.draft("RGB", (_SIDES[0] * 2, _SIDES[0] * 2))
            upright = ImageOps.exif_transpose(opened)
            on_white = Pillow.new("RGB", upright.size, "white")
            clear = upright.convert("RGBA")
            on_white.paste(clear, mask=clear.getchannel("A"))
    except PictureError:
        raise
    except Exception:  # noqa: BLE001 - whatever the library makes of a stranger's file, it is no picture
        raise PictureError(_REFUSED) from None
    for side in _SIDES:
        sized = on_white.copy()
        sized.thumbnail((side, side))
        for quality in _QUALITIES:
            made = BytesIO()
            sized.save(made, "JPEG", quality=quality, optimize=True)
            if len(made.getvalue()) <= IMAGE_MAX:
                return image_of(made.getvalue(), sized.width, sized.height, day)
    raise PictureError("It cannot be made small enough for a record")


def _day_in(opened: Any) -> str:
    """The day the camera noted; of all it noted, nothing else is kept."""
    noted = opened.getexif()
    inner = noted.get_ifd(_EXIF)
    said = str(inner.get(_TAKEN[0]) or noted.get(_TAKEN[1]) or "")[:10]
    year, month, day = (*said.split(":"), "", "", "")[:3]
    is_day = all(part.isascii() and part.isdecimal() for part in (year, month, day)) and len(year) == 4
    return f"{year}-{month}-{day}" if is_day else ""
