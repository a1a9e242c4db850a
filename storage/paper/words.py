"""Our own words, written as Markdown, taken apart into paragraphs and lists for the templates."""

from functools import cache
from typing import Any

Run = dict[str, Any]
"""Text with `bold`."""
WordBlock = dict[str, Any]
"""A paragraph of `runs`, or a list of `items`, each its runs."""


@cache
def paragraphs(ours: str) -> list[WordBlock]:
    """The paragraphs and lists of a text."""
    blocks: list[WordBlock] = []
    items: list[list[Run]] | None = None
    for token in _parser().parse(ours):
        if token.type == "bullet_list_open":
            items = []
            blocks.append({"kind": "list", "items": items})
        elif token.type == "bullet_list_close":
            items = None
        elif token.type == "inline" and items is not None:
            items.append(_runs(token))
        elif token.type == "inline":
            blocks.append({"kind": "paragraph", "runs": _runs(token)})
    return blocks


def line(ours: str) -> list[Run]:
    """Our own words on one line."""
    return _runs(_parser().parseInline(ours)[0]) if ours else []


def _runs(token: Any) -> list[Run]:
    runs: list[Run] = []
    bold = False
    for each in token.children or ():
        match each.type:
            case "strong_open":
                bold = True
            case "strong_close":
                bold = False
            case "softbreak" | "hardbreak":
                runs.append({"text": " ", "bold": bold})
            case _:
                if each.content:
                    runs.append({"text": each.content, "bold": bold})
    return runs


@cache
def _parser() -> Any:
    from markdown_it import MarkdownIt

    return MarkdownIt("commonmark", {"html": False}).disable(["image", "link", "autolink"])
