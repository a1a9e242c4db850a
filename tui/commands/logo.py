"""`logo`: the logo of a firm, which the letterhead of its papers bears from then on."""

from domain.job.logo import LogoError
from domain.register.entries import Kept, KnownFirm, RegisterKind
from domain.value import LINE_MAX, cleaned, is_blank
from domain.words import joined, uncapitalised
from tui.commands.command import (
    JSON,
    NO,
    Command,
    CommandAnswer,
    CommandOption,
    Environment,
    TypedArgument,
    UnusableError,
)
from tui.commands.input_files import document_in
from tui.services import Services

_SAYS = CommandOption(
    "--says", "what it shows, in a few words: whoever cannot see it has these, and every logo needs them", "WORDS"
)
_NONE = CommandOption("--none", "take the logo off; papers issued with it keep it")
_FILE_MAX = 8 * 1024 * 1024
_FIRMS_MAX = 50


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    """Keep a logo with a firm of the register, take it off, or say which there is."""
    name, path = cleaned(typed.words[0]), typed.words[1] if len(typed.words) > 1 else ""
    says, none = typed.value(_SAYS.name), typed.has(_NONE.name)
    if none and (path or says):
        raise UnusableError(f"Give a file, or {_NONE.name}, not both")
    if path and (is_blank(says) or cleaned(says) != says or len(says) > LINE_MAX):
        raise UnusableError(f"A logo needs {_SAYS.name}: what it shows, on one line of up to {LINE_MAX} letters")
    content = document_in(path, _FILE_MAX) if path else b""
    with environment.open_services() as services:
        kept = _firm(services, name)
        if kept is None:
            says = f"{name} is no firm of the register; it is learnt from the first paper issued, or kept there by hand"
            return CommandAnswer({"firm": name, "says": says}, f"✗ {says}", NO)
        if content or none:
            kept = _with_logo(services, kept, path, content, says)
    return _told(kept)


def _firm(services: Services, name: str) -> Kept | None:
    found = services.log.registered(RegisterKind.FIRM, name, limit=_FIRMS_MAX)
    return next((each for each in found if joined(_known(each).name) == joined(name)), None)


def _known(kept: Kept) -> KnownFirm:
    assert isinstance(kept.entry, KnownFirm)
    return kept.entry


def _with_logo(services: Services, kept: Kept, path: str, content: bytes, says: str) -> Kept:
    try:
        logo = services.made_logo(content, says) if content else None
    except LogoError as error:
        text = str(error)
        raise UnusableError(f"{path}: {uncapitalised(text)}; nothing was changed") from None
    entry = _known(kept).model_copy(update={"logo": logo})
    return services.log.register(entry, entry_id=kept.id, who=services.who, at=services.now())


def _told(kept: Kept) -> CommandAnswer:
    firm = _known(kept)
    if firm.logo is None:
        return CommandAnswer({"firm": firm.name, "logo": None}, f"The papers of {firm.name} bear no logo")
    size = len(firm.logo.content)
    said = f"The papers of {firm.name} bear a logo: “{firm.logo.says}”, {firm.logo.kind.upper()}, {size / 1000:.1f} kB"
    return CommandAnswer(
        {"firm": firm.name, "logo": {"kind": firm.logo.kind, "says": firm.logo.says, "bytes": size}}, said
    )


COMMAND = Command(
    name="logo",
    run=run,
    words="FIRM [FILE]",
    least=1,
    most=2,
    options=(_SAYS, _NONE, JSON),
    explains="FILE is a PNG, which is made small and set on white, or an SVG of plain shapes with its letters turned into paths; "
    "anything in it that could run, fetch or hide something is refused or left out.\n"
    "It stands at the top left of each paper and letter issued from then on, 35 by 18 millimetres at the most. The record of a "
    "paper holds the logo it was issued with, so that it can be made again. A draft bears none.\n"
    "Without FILE: the logo there is. Exit 1: the register has no such firm.",
)
