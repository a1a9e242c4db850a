"""Logos: drawings of plain shapes and nothing else. What SVG can do besides is that of SVG 1.1, W3C (2011)."""

import pytest
from pydantic import ValidationError

from domain.job.logo import LOGO_MAX, Logo, LogoError, LogoKind, logo_of
from domain.job.plain_svg import SvgError, plain_svg

HEAD = '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" viewBox="0 0 120 60">'


def drawing(inside: str, head: str = HEAD) -> bytes:
    return f"{head}{inside}</svg>".encode()


def test_a_drawing_keeps_its_shapes_and_colours_and_loses_all_that_draws_nothing():
    given = drawing(
        "<!-- made by a program --><title>A bolt</title><metadata><x/></metadata>"
        '<g style="fill:#0d4d54;font-family:serif;-x-y:1" id="a" class="b" onclick="go()" data-x="1">'
        '<path d="M36 8L16 34h12z"/><rect x="1" y="2" width="3" height="4" transform="rotate(10 2 3)"/></g>',
        f'<?xml version="1.0"?><!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "svg11.dtd">{HEAD}',
    )
    made = plain_svg(given).decode()
    assert '<g fill="#0d4d54" id="a">' in made
    assert '<path d="M36 8L16 34h12z">' in made
    for gone in ("bolt", "metadata", "serif", "onclick", "class", "data-x", "DOCTYPE", "made by"):
        assert gone not in made
    assert plain_svg(made.encode()) == made.encode()


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"", "no drawing"),
        (b"<svg", "no drawing"),
        (b"<svg/>", "no drawing"),
        (b'<html xmlns="http://www.w3.org/1999/xhtml"/>', "no drawing"),
        (drawing("<script>go()</script>"), "only plain shapes"),
        (drawing("<foreignObject/>"), "only plain shapes"),
        (drawing('<image xlink:href="file:///etc/passwd"/>'), "only plain shapes"),
        (drawing('<use xlink:href="#a"/>'), "only plain shapes"),
        (drawing('<a xlink:href="https://example.org"><path d="M0 0"/></a>'), "only plain shapes"),
        (drawing('<animate attributeName="x"/>'), "only plain shapes"),
        (drawing('<filter id="f"/>'), "only plain shapes"),
        (drawing("<text>Harebell</text>"), "turn them into paths"),
        (drawing("<style>* { fill: url(https://example.org) }</style>"), "style sheet"),
        (drawing('<linearGradient xlink:href="#g"/>'), "lead elsewhere"),
        (drawing('<rect fill="url(https://example.org/a)"/>'), "fill on <rect>"),
        (drawing('<rect style="fill:url(javascript:go())"/>'), "fill on <rect>"),
        (drawing('<path d="M0 0 url(x)"/>'), "d on <path>"),
        (drawing("&a;", f'<!DOCTYPE svg [<!ENTITY a "b">]>{HEAD}'), "entities"),
        (drawing("&a;", f'<!DOCTYPE svg [<!ENTITY a SYSTEM "file:///etc/passwd">]>{HEAD}'), "entities"),
        (drawing("&a;", f'<!DOCTYPE svg SYSTEM "https://example.org/a.dtd">{HEAD}'), "entities"),
        (drawing("", '<svg xmlns="http://www.w3.org/2000/svg">'), "how wide and high"),
        (drawing("", '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 0 9">'), "far wider"),
        (drawing("", '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 900 9">'), "far wider"),
        (drawing("<g>" * 40 + "</g>" * 40), "too many parts"),
        (drawing("<g/>" * 4000), "too many parts"),
        (drawing(" " * 300_000), "larger than"),
    ],
)
def test_a_drawing_that_could_do_more_than_be_seen_is_refused_in_plain_words(content: bytes, says: str):
    with pytest.raises(SvgError, match=says):
        plain_svg(content)


def test_a_clip_cannot_be_clipped_by_itself():
    made = plain_svg(drawing('<clipPath id="c" clip-path="url(#c)"><rect clip-path="url(#c)" width="9"/></clipPath>'))
    assert b"url(#c)" not in made


def test_a_record_with_any_other_drawing_or_image_is_no_record():
    sound = logo_of(LogoKind.SVG, plain_svg(drawing('<path d="M0 0h9v9z"/>')), "A square")
    assert Logo.model_validate(sound.model_dump(mode="json")) == sound
    held = sound.model_dump(mode="json")
    for changed in (
        {"kind": "png"},
        {"says": ""},
        {"says": "\u200b"},
        {"data": "PHN2Zz4="},
        {"data": "!"},
        {"data": logo_data(drawing("<!-- a --><script/>"))},
    ):
        with pytest.raises(ValidationError):
            Logo.model_validate(held | changed)
    with pytest.raises(LogoError, match="larger than"):
        logo_of(LogoKind.PNG, bytes(LOGO_MAX + 1), "Nothing")


def logo_data(content: bytes) -> str:
    import base64

    return base64.b64encode(content).decode()
