"""Text of people made safe for the Markdown writer: as typed to the eye, and never markup."""

import string

# The writer decodes entities twice, so an ampersand is written twice over.
_ENTITIES = {mark: f"&#{ord(mark)};" for mark in string.punctuation} | {"&": "&#38;amp;"}
_ON_ONE_LINE = str.maketrans(_ENTITIES | {"\n": " "})
_LINES_KEPT = str.maketrans(_ENTITIES | {"\n": "<br>"})


def esc(text: str, *, multiline: bool = False) -> str:
    """A text as HTML that means nothing but itself; it never holds a line end, which would begin Markdown again."""
    return text.strip("\n").translate(_LINES_KEPT if multiline else _ON_ONE_LINE)
