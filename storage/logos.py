"""A firm's logo out of a file, small and harmless, made in a process of its own: it trusts none."""

from io import BytesIO

from domain.job.logo import LOGO_MAX, Logo, LogoError, LogoKind, logo_of
from domain.job.plain_svg import SVG_FILE_MAX, SvgError, plain_svg
from storage.read_apart import made_apart, refused

FILE_MAX = 8 * 1024 * 1024
"""Bytes of a file that is looked at."""
_POINTS_MAX = 40_000_000
_SIDES = (1000, 700, 500, 350)
"""Points of the longer side, the largest first that can be kept small enough; a letterhead shows them at 300 to the inch and more."""
_COLOURS = (None, 128, 32)
_REFUSED = "It is no PNG or SVG that can be read, so it is no logo"


def made_logo(content: bytes, says: str) -> Logo:
    """The logo of a PNG or SVG. LogoError for anything else; `says` is what it shows, in words."""
    made = made_apart(f"{__name__}:answer", content, FILE_MAX, LogoError, _REFUSED)
    return Logo(kind=made["kind"], data=made["data"], says=says)


def answer(content: bytes) -> bytes:
    """The logo, or why there is none, as JSON; called in the process of its own."""
    try:
        made = _drawing(content) if content.lstrip(b"\xef\xbb\xbf \t\r\n").startswith(b"<") else _image(content)
    except (LogoError, SvgError) as error:
        return refused(error)
    return made.model_dump_json().encode()


def _drawing(content: bytes) -> Logo:
    if len(content) > SVG_FILE_MAX:
        raise LogoError(f"The drawing is larger than {SVG_FILE_MAX // 1000} kB; make it simpler")
    return logo_of(LogoKind.SVG, plain_svg(content), "a logo")


def _image(content: bytes) -> Logo:
    from PIL import Image as Pillow

    Pillow.MAX_IMAGE_PIXELS = None
    try:
        with Pillow.open(BytesIO(content), formats=("PNG",)) as opened:
            if opened.width * opened.height > _POINTS_MAX:
                raise LogoError("It has more points than a logo needs; make it smaller first")
            clear = opened.convert("RGBA")
    except LogoError:
        raise
    except Exception:  # noqa: BLE001 - whatever the library makes of a stranger's file, it is no logo
        raise LogoError(_REFUSED) from None
    if not 1 / 12 <= clear.width / clear.height <= 12:
        raise LogoError("It is far wider than high, or far higher than wide")
    on_white = Pillow.new("RGB", clear.size, "white")
    on_white.paste(clear, mask=clear.getchannel("A"))
    for side in _SIDES:
        for colours in _COLOURS:
            sized = on_white.copy()
            sized.thumbnail((side, side), Pillow.Resampling.LANCZOS)
            made = BytesIO()
            (sized.quantize(colours) if colours else sized).save(made, "PNG", optimize=True)
            if len(made.getvalue()) <= LOGO_MAX:
                return logo_of(LogoKind.PNG, made.getvalue(), "a logo")
    raise LogoError("It cannot be made small enough for a letterhead")
