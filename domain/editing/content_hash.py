"""What somebody saw of a part of a job, in a few letters, so that an act on the whole part is not done to another."""

import hashlib

from pydantic import BaseModel


def content_hash(part: BaseModel) -> str:
    """The same letters for the same content."""
    return hashlib.sha256(part.model_dump_json().encode()).hexdigest()[:16]
