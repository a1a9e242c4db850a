"""A bundle as a file: one line that says who sent it and is signed, then all the rest, compressed, a line of JSON each."""

import base64
import hashlib
import json
import zlib
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import IO, Any, NamedTuple

from domain.laptops.bundle import Bundle
from domain.laptops.holding import Holding
from domain.laptops.operation import Act, Operation, StreamEnd
from domain.log.job_log import JobLogError

MAGIC = b"Ohmfolio bundle, 1\n"
HEAD_MAX = 16_384
_PIECE = 65_536
Paper = Callable[[str], bytes]


class BundleHead(NamedTuple):
    """What stands in the open: who it is from and for, and the signature over the rest."""

    sender: str
    to: str
    sha256: str
    key: str = ""
    """Of the sender's seal; "" where it has none."""
    signature: str = ""

    @property
    def signed_text(self) -> bytes:
        """What the signature is over."""
        return "\n".join(("Ohmfolio bundle, 1", self.sender, self.to, self.sha256)).encode()


def write_bundle(
    path: Path,
    bundle: Bundle,
    to: str,
    paper: Callable[[Operation], bytes],
    sign: Callable[[bytes], tuple[str, str]],
) -> None:
    """Write a bundle for a device, a piece at a time; each paper stands before the operation that issued it, where it is here."""
    body = path.with_name(f"{path.name}.body")
    try:
        digest = hashlib.sha256()
        with body.open("wb") as file:
            squeezer = zlib.compressobj(6)
            for line in _lines(bundle, paper):
                piece = squeezer.compress(json.dumps(line, ensure_ascii=False, separators=(",", ":")).encode() + b"\n")
                digest.update(piece)
                file.write(piece)
            piece = squeezer.flush()
            digest.update(piece)
            file.write(piece)
        head = BundleHead(bundle.sender, to, digest.hexdigest())
        key, signature = sign(head.signed_text)
        with path.open("wb") as file, body.open("rb") as rest:
            file.write(MAGIC + json.dumps(head._replace(key=key, signature=signature)).encode() + b"\n")
            while piece := rest.read(_PIECE):
                file.write(piece)
    finally:
        body.unlink(missing_ok=True)


def _lines(bundle: Bundle, paper: Callable[[Operation], bytes]) -> Iterator[list[object]]:
    yield ["bundle", dict(bundle.ends), dict(bundle.since), list(bundle.contested)]
    count = 0
    for operation in bundle.operations:
        if operation.act is Act.ISSUE and (pdf := paper(operation)):
            yield ["paper", operation.job, base64.b64encode(pdf).decode()]
        yield ["operation", *operation]
        count += 1
    for job, (holding, document) in bundle.holdings.items():
        yield ["holding", job, list(holding), document]
    yield ["end", count]


def head_of(file: IO[bytes], named: str) -> BundleHead:
    """The line in the open; JobLogError where there is none such."""
    if file.read(len(MAGIC)) == MAGIC:
        line = file.readline(HEAD_MAX)
        try:
            given: list[Any] = json.loads(line)
            if len(given) == len(BundleHead._fields) and all(isinstance(each, str) for each in given):
                return BundleHead(*given)
        except (TypeError, ValueError):
            pass
    raise JobLogError(f"{named} is no bundle of this program. Nothing was taken in.")


def body_of(file: IO[bytes], digest: Callable[[bytes], object]) -> Iterator[bytes]:
    """The lines behind the head, as they come out of their compression; ValueError where they are cut or spoilt."""
    stretcher, held = zlib.decompressobj(), b""
    while piece := file.read(_PIECE):
        digest(piece)
        while piece:
            try:
                held += stretcher.decompress(piece, _PIECE)
            except zlib.error as error:
                raise ValueError from error
            piece = stretcher.unconsumed_tail
            *lines, held = held.split(b"\n")
            yield from lines
    if held or not stretcher.eof:
        raise ValueError("cut")


def bundle_in(lines: Iterator[list[Any]], sender: str) -> tuple[Bundle, Paper]:
    """The bundle of lines that were examined, its operations read as they are asked for, and the paper of the last issue read.

    That is b"" where none came with it.

    How jobs stand comes behind the operations, and is there once these were read.
    """
    _, ends, since, contested = next(lines)
    holdings: dict[str, tuple[Holding, str]] = {}
    papers: dict[str, bytes] = {}

    def operations() -> Iterator[Operation]:
        for kind, *values in lines:
            if kind == "paper":
                number, pdf = values
                papers.clear()
                papers[str(number)] = base64.b64decode(str(pdf))
            elif kind == "operation":
                device, counter, before, act, *rest = values
                yield Operation(device, counter, before, Act(act), *rest)
            elif kind == "holding":
                job, holding, document = values
                holdings[str(job)] = Holding(*holding), str(document)

    bundle = Bundle(sender, _ends(ends), _ends(since), operations(), tuple(contested), holdings)
    return bundle, lambda number: papers.get(number, b"")


def _ends(given: dict[str, list[Any]]) -> dict[str, StreamEnd]:
    return {device: StreamEnd(*end) for device, end in given.items()}
