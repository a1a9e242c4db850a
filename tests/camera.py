"""Files as a camera makes them, of our own drawing."""

from hashlib import sha256
from io import BytesIO
from typing import Any

from PIL import Image

from domain.job.picture import JobPicture, image_of
from domain.place import Place

_ORIENTATION, _TAKEN_IFD, _TAKEN, _GPS_IFD = 0x0112, 0x8769, 0x9003, 0x8825
TURNED_RIGHT = 6


def camera_file(width: int = 1600, height: int = 1200, kind: str = "JPEG", *, noted: bool = True) -> bytes:
    """A picture with a day, a place and a turn noted beside it, where the kind can hold them."""
    made, drawn = BytesIO(), Image.radial_gradient("L").resize((width, height)).convert("RGB")
    exif = Image.Exif()
    if noted:
        exif[_ORIENTATION] = TURNED_RIGHT
        exif[_TAKEN_IFD] = {_TAKEN: "2026:03:02 10:15:00"}
        exif[_GPS_IFD] = {1: "N", 2: (53.0, 30.0, 0.0), 3: "W", 4: (2.0, 15.0, 0.0)}
    drawn.save(made, kind, **({"exif": exif} if kind == "JPEG" else {}))
    return made.getvalue()


def picture(about: Place, caption: str = "Scorched neutral at the main switch", **more: Any) -> JobPicture:
    """A small picture of a place; another caption gives another image."""
    made = BytesIO()
    Image.new("RGB", (80, 60), tuple(sha256(caption.encode()).digest()[:3])).save(made, "JPEG")
    return JobPicture(
        about=about, name="IMG_1.jpg", caption=caption, image=image_of(made.getvalue(), 80, 60, "2026-03-02"), **more
    )
