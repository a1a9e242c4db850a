"""Text as HTML: a person's own as nothing but itself, ours with its Markdown."""

import html
from functools import cache
from typing import Any


def text(words: str) -> str:
    """A text that means nothing but itself; its line ends are kept."""
    return html.escape(words, quote=True).replace("\n", "<br>")


def markdown(ours: str) -> str:
    """Our own words, which may hold lists and tables."""
    return _renderer().render(ours)


def markdown_line(ours: str) -> str:
    """Our own words on one line."""
    return _renderer().renderInline(ours)


@cache
def _renderer() -> Any:
    from markdown_it import MarkdownIt

    return MarkdownIt("commonmark", {"html": False}).enable("table").disable(["image", "link", "autolink"])
