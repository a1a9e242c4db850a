"""`keys`: the key this log seals its papers with: shown, given to others, handed over, given up for lost, put back."""

from pathlib import Path

from domain.civil_time import written_moment
from domain.job.seal_key import in_groups
from domain.log.certificates import note_certificate
from domain.log.seal_keys import LogKey
from domain.value import LINE_MAX, cleaned
from tui.commands.command import JSON, Command, CommandAnswer, Environment, TypedArgument, UnusableError
from tui.commands.typed_phrase import new_phrase, typed_phrase
from tui.services import Services

_CARD, _ROTATE, _LOST, _UNLOCK, _NEW = "card", "rotate", "lost", "unlock", "new"
_WORDS = {"": 0, _CARD: 1, _ROTATE: 0, _LOST: 0, _UNLOCK: 0, _NEW: 2}
"""How many words follow each."""
_WORTH = (
    "It shows that papers were signed by the same hand, and not changed since. Whose hand that is it cannot show: anybody can "
    "make a certificate of that name, and readers of PDF will call its issuer unknown. Give clients its SHA-256 in another way "
    "than the papers, or buy one of an authority where more is asked."
)


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    """Do what the first word says; without one, show the keys."""
    word, *files = typed.words or ("",)
    if _WORDS.get(word) != len(files):
        raise UnusableError(f"keys takes one of {', '.join(COMMAND.choices)}, or nothing; usage: {COMMAND.usage}")
    if word == _UNLOCK:
        return _unlocked(environment)
    with environment.open_services() as services:
        if word == _NEW:
            return _certificate(services, Path(files[0]), cleaned(files[1])[:LINE_MAX])
        if word == _ROTATE:
            return _shown(services, services.log.rotate_seal_key(who=services.who, at=services.now()))
        if word == _LOST:
            return _shown(services, services.log.replace_lost_seal_key(who=services.who, at=services.now()))
        services.log.begin_seal_key(who=services.who, at=services.now())
        return _card(services, Path(files[0])) if files else _shown(services)


def _certificate(services: Services, path: Path, firm: str) -> CommandAnswer:
    """A certificate of the firm's own, in a file that a phrase locks."""
    if path.exists():
        raise UnusableError(f"{path} exists already and is not written over")
    made, certificate = services.signing.own_certificate(
        firm, new_phrase("that locks the certificate"), at=services.now()
    )
    services.write_new(path, made.held)
    note_certificate(services.log, certificate, firm, who=services.who, at=services.now())
    said = [str(path), f"SHA-256 of the certificate {certificate}", _WORTH]
    return CommandAnswer({"file": str(path), "certificate": certificate}, "\n".join(said))


def _unlocked(environment: Environment) -> CommandAnswer:
    phrase = typed_phrase("The phrase the key was locked with: ", "The phrase of a key")
    fingerprint = environment.folder_upkeep(environment.place()).unlock_key(phrase)
    return CommandAnswer({"fingerprint": fingerprint}, f"✓ The key {in_groups(fingerprint)} is in its place again")


def _shown(services: Services, begun: LogKey | None = None) -> CommandAnswer:
    keys = services.log.seal_keys()
    lines = [line for before, key in zip((None, *keys), keys, strict=False) for line in _told(before, key)]
    said = [
        *lines,
        "Give clients the fingerprint in another way than the papers: on a letter, on your website, by telephone.",
        "They check a paper with `ohmfolio verify FILE --firm` and the fingerprint; `ohmfolio keys card FILE` writes all keys.",
    ]
    if begun:
        said.append("Papers sealed with the key before stay as they are, and its fingerprint goes on checking them.")
    return CommandAnswer(
        [key.model_dump(mode="json") | {"fingerprint": key.fingerprint} for key in keys], "\n".join(said)
    )


def _told(before: LogKey | None, key: LogKey) -> list[str]:
    if before is None:
        how = "the first"
    elif key.statement:
        how = f"handed over by {in_groups(before.fingerprint)[:9]} with its signature"
    else:
        how = "the one before was lost or given up, so nothing leads to this one: tell those who hold that"
    return [in_groups(key.fingerprint), f"  since {written_moment(key.since)}, by {key.by}; {how}"]


def _card(services: Services, path: Path) -> CommandAnswer:
    """The public keys in a file, to be given to those who check papers."""
    keys = services.log.seal_keys()
    lines = [
        "# Keys that papers of this firm are sealed with, the oldest first. They are public; nothing here is secret.",
        "# ohmfolio verify PAPER.pdf --firm THIS-FILE",
        *(
            f"key {key.key}  # since {written_moment(key.since)}, fingerprint {in_groups(key.fingerprint)}"
            for key in keys
        ),
    ]
    try:
        services.write_new(path, ("\n".join(lines) + "\n").encode())
    except FileExistsError:
        raise UnusableError(f"{path} exists already and is not written over") from None
    return CommandAnswer({"file": str(path)}, str(path))


COMMAND = Command(
    name="keys",
    run=run,
    words="[card FILE|rotate|lost|unlock|new FILE.p12 FIRM]",
    most=3,
    choices=(_CARD, _ROTATE, _LOST, _UNLOCK, _NEW),
    options=(JSON,),
    explains="Each log has a key of its own, made when it is begun and kept in its folder as seal.key, for its owner alone. "
    "Every paper is signed with it, and names its public half in its proof; that tells a paper of this log from one that "
    "somebody bound again.\n"
    "Nothing: the keys as they are. card FILE: the public keys, for those who check. rotate: a new key, which the one before "
    "signs. lost: a new key where that was lost or may be in other hands. unlock: the key out of a copy that "
    "`ohmfolio backup FILE --with-key` made, after `ohmfolio restore`. new FILE.p12 FIRM: "
    "something else, a certificate that ohmfolio sign takes, and readers of PDF show.\n"
    "Whoever can read seal.key can make papers that pass for yours.",
)
