"""Drawings in SVG taken down to shapes alone: what is not on the list of what draws shapes is left out or refused."""

import re
from collections.abc import Mapping
from xml.parsers import expat

SVG_FILE_MAX = 200_000
"""Bytes of a file that is read."""
_PARTS_MAX, _DEPTH_MAX = 3000, 16
_SPACE = "http://www.w3.org/2000/svg"
_NUMBERS = r"[0-9eE+\-., \t\n%a-z]{0,4000}"
_NAMED = r"[A-Za-z_][A-Za-z0-9_.\-]{0,60}"
_LINK = rf"url\(#{_NAMED}\)"
_COLOUR = rf"(?:#[0-9A-Fa-f]{{3,8}}|[a-zA-Z]{{3,24}}|rgba?\([0-9.,%\s/]{{1,60}}\)|{_LINK})"

_PAINT: Mapping[str, str] = {
    **dict.fromkeys(("fill", "stroke", "stop-color", "color"), _COLOUR),
    **dict.fromkeys(("opacity", "fill-opacity", "stroke-opacity", "stop-opacity", "stroke-width"), _NUMBERS),
    **dict.fromkeys(("stroke-dasharray", "stroke-dashoffset", "stroke-miterlimit"), _NUMBERS),
    **dict.fromkeys(("fill-rule", "clip-rule", "stroke-linecap", "stroke-linejoin"), r"[a-z\-]{1,20}"),
    "display": r"none|inline|block",
    "visibility": r"visible|hidden",
    "clip-path": rf"none|{_LINK}",
    "transform": r"[a-zA-Z0-9+\-.,()\s]{0,600}",
}
_PLACE = ("x", "y", "width", "height")
_GRADIENT = ("gradientUnits", "gradientTransform", "spreadMethod", "fx", "fy")
_SHAPES: Mapping[str, tuple[str, ...]] = {
    "svg": (*_PLACE, "viewBox", "preserveAspectRatio"),
    "g": (),
    "defs": (),
    "path": ("d",),
    "rect": (*_PLACE, "rx", "ry"),
    "circle": ("cx", "cy", "r"),
    "ellipse": ("cx", "cy", "rx", "ry"),
    "line": ("x1", "y1", "x2", "y2"),
    "polyline": ("points",),
    "polygon": ("points",),
    "linearGradient": ("x1", "y1", "x2", "y2", *_GRADIENT),
    "radialGradient": ("cx", "cy", "r", *_GRADIENT),
    "stop": ("offset",),
    "clipPath": ("clipPathUnits",),
}
"""What draws, each with what says where; all may be painted besides."""
_OWN: Mapping[str, str] = {
    "d": r"[MmLlHhVvCcSsQqTtAaZz0-9eE+\-.,\s]{0,40000}",
    "points": r"[0-9eE+\-.,\s]{0,20000}",
    "preserveAspectRatio": r"[A-Za-z ]{1,30}",
    "gradientTransform": _PAINT["transform"],
    **dict.fromkeys(("gradientUnits", "clipPathUnits"), "userSpaceOnUse|objectBoundingBox"),
    "spreadMethod": "pad|reflect|repeat",
}
_SAYS_NOTHING = frozenset({"title", "desc", "metadata"})
"""Draws nothing, and is left out."""
_LINKS = ("href", "http://www.w3.org/1999/xlink href")
_ESCAPES = str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "\n": " ", "\t": " ", "\r": " "})


class SvgError(ValueError):
    """A drawing that cannot be taken; the message is one plain sentence for the person."""


def plain_svg(content: bytes) -> bytes:
    """The drawing as shapes alone, in one form: taken again it stays as it is. SvgError for what is no such drawing.

    Nothing that runs, fetches, embeds or writes is on the list (SVG 1.1, W3C); letters have to be turned into paths.
    """
    if len(content) > SVG_FILE_MAX:
        raise SvgError(f"The drawing is larger than {SVG_FILE_MAX // 1000} kB; make it simpler")
    reading = _Reading()
    try:
        reading.parser.Parse(content, True)  # noqa: FBT003 - the parser knows it by no name
    except expat.ExpatError:
        raise SvgError("It is no drawing in SVG that can be read") from None
    if not reading.made:
        raise SvgError("It is no drawing in SVG that can be read")
    return "".join(reading.made).encode()


class _Reading:
    """One drawing on its way through the list."""

    def __init__(self) -> None:
        self.parser = expat.ParserCreate("UTF-8", " ")
        self.parser.buffer_text = True
        self.parser.StartElementHandler = self._begin
        self.parser.EndElementHandler = self._end
        self.parser.StartDoctypeDeclHandler = self._doctype
        self.parser.EntityDeclHandler = self._refused_entity
        self.parser.SkippedEntityHandler = self._refused_entity
        self.made: list[str] = []
        self._open: list[str] = []
        self._left_out = 0
        """How deep in something that is left out."""
        self._parts = 0

    def _doctype(self, _name: str, _system: str | None, _public: str | None, inside: bool) -> None:  # noqa: FBT001 - the parser hands it over
        if inside:
            self._refused_entity()

    def _refused_entity(self, *_: object) -> None:
        raise SvgError("The drawing names texts of its own (entities); save it as plain SVG")

    def _begin(self, name: str, typed: dict[str, str]) -> None:
        space, _, element = name.rpartition(" ")
        self._parts += 1
        if self._parts > _PARTS_MAX or len(self._open) > _DEPTH_MAX:
            raise SvgError("The drawing has too many parts; make it simpler")
        if self._left_out or (self._open and (space != _SPACE or element in _SAYS_NOTHING)):
            self._left_out += 1
            return
        if space != _SPACE or (element == "svg") is not (not self._open):
            raise SvgError("It is no drawing in SVG that can be read")
        if element not in _SHAPES:
            raise SvgError(_refusal(element))
        kept = _kept(element, typed, within_clip="clipPath" in self._open)
        if not self._open:
            _require_size(kept)
            kept = {"xmlns": _SPACE} | kept
        self._open.append(element)
        said = "".join(f' {key}="{value.translate(_ESCAPES)}"' for key, value in sorted(kept.items()))
        self.made.append(f"<{element}{said}>")

    def _end(self, _: str) -> None:
        if self._left_out:
            self._left_out -= 1
        else:
            self.made.append(f"</{self._open.pop()}>")


def _refusal(element: str) -> str:
    if element in {"text", "tspan", "textPath"}:
        return "The drawing holds letters; turn them into paths, so that no font is needed"
    if element == "style":
        return "The drawing is painted by a style sheet; save it as plain SVG, with its colours on its shapes"
    return f"The drawing holds <{element[:40]}>, and only plain shapes are taken; save it as plain SVG"


def _kept(element: str, typed: Mapping[str, str], *, within_clip: bool) -> dict[str, str]:
    """What says where a shape is and how it is painted; a style is taken apart, all else is left out."""
    if any(name in typed for name in _LINKS):
        raise SvgError(f"The drawing has <{element}> lead elsewhere; save it as plain SVG without links")
    parts = [part.partition(":") for part in typed.get("style", "").split(";")]
    painted = {name.strip(): value.strip() for name, _, value in parts if name.strip() in _PAINT}
    own = {name: value.strip() for name, value in typed.items() if name in _PAINT or name in _SHAPES[element]}
    kept = own | painted
    for name, value in kept.items():
        if not re.fullmatch(_OWN.get(name) or _PAINT.get(name) or _NUMBERS, value):
            raise SvgError(f"The drawing has a {name} on <{element}> that is not taken; save it as plain SVG")
    if within_clip or element == "clipPath":
        # One that is clipped by itself would have no end.
        kept.pop("clip-path", None)
    if re.fullmatch(_NAMED, named := typed.get("id", "")):
        kept["id"] = named
    return kept


def _require_size(kept: Mapping[str, str]) -> None:
    """Wide and high, and neither out of all proportion."""
    box = kept.get("viewBox", "").replace(",", " ").split()
    try:
        wide, high = map(float, box[2:4] if len(box) == 4 else (_plain(kept["width"]), _plain(kept["height"])))
    except (KeyError, ValueError):
        raise SvgError("The drawing does not say how wide and high it is (viewBox)") from None
    if not (wide > 0 and high > 0 and 1 / 12 <= wide / high <= 12):
        raise SvgError("The drawing is far wider than high, or far higher than wide")


def _plain(length: str) -> str:
    return length.removesuffix("px").removesuffix("mm").removesuffix("pt")
