"""A photograph or thermal image in a record: what it shows, and the image itself, so that the record's hash covers it."""

import base64
import binascii
import hashlib
from typing import Annotated, Literal

from pydantic import Field, model_validator

from domain.place import Place
from domain.value import Line, Value

PICTURES_MAX = 24
"""In one job; with IMAGE_MAX it keeps a document within what is read."""
IMAGE_MAX = 48_000
"""Bytes of one, as it is kept."""
_CODED_MAX = (IMAGE_MAX + 2) // 3 * 4
_JPEG = b"\xff\xd8\xff"


class PictureError(ValueError):
    """A file that cannot be taken as a picture; the message is one plain sentence for the person."""


class Image(Value):
    """An image made small: a JPEG without anything a camera wrote beside it."""

    width: Annotated[int, Field(ge=1, le=10_000)]
    """Points of the image."""
    height: Annotated[int, Field(ge=1, le=10_000)]
    sha256: Line
    """Of the image, in hexadecimal."""
    data: Annotated[str, Field(max_length=_CODED_MAX, repr=False)]
    """The image in base 64."""
    taken: Line = ""
    """The day the camera noted, as ISO 8601; "" where it noted none."""

    @model_validator(mode="after")
    def _is_what_it_says(self) -> "Image":
        try:
            held = self.content
        except (binascii.Error, ValueError):
            raise ValueError("the image is no base 64") from None
        if not held.startswith(_JPEG):
            raise ValueError("the image is no JPEG")
        if hashlib.sha256(held).hexdigest() != self.sha256:
            raise ValueError("the image is not the one its SHA-256 names")
        return self

    @property
    def content(self) -> bytes:
        """The JPEG."""
        return base64.b64decode(self.data, validate=True)


def image_of(jpeg: bytes, width: int, height: int, taken: str = "") -> Image:
    """An image of the bytes of a small JPEG."""
    data = base64.b64encode(jpeg).decode()
    return Image(width=width, height=height, sha256=hashlib.sha256(jpeg).hexdigest(), data=data, taken=taken)


class JobPicture(Value):
    """One picture of an observation, an inspection item or a board."""

    id: Line = ""
    about: Place
    kind: Literal["photograph", "thermal image"] = "photograph"
    name: Line
    """Of the file it came from."""
    caption: Annotated[Line, Field(min_length=1)]
    """What it shows; whoever cannot see it has this instead."""
    image: Image
