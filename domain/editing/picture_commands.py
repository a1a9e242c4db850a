"""What can be done to the pictures of a job."""

from typing import Literal

from domain.job.picture import JobPicture
from domain.value import Value


class AddPicture(Value):
    """Put a picture into the record; its id is given."""

    do: Literal["add-picture"] = "add-picture"
    picture: JobPicture


class RemovePicture(Value):
    """Take a picture out of the record."""

    do: Literal["remove-picture"] = "remove-picture"
    picture: str
    """Its id."""
