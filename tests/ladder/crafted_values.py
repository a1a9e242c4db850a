"""Jobs that are well formed and cannot be: ids twice, places that lead nowhere, marks that no form has, by what is wrong with each."""

import base64
import hashlib
import json
import zlib
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

Job = dict[str, Any]
Put = Callable[[Path, Job], object]


def changed(change: Callable[[Job], object]) -> Put:
    """The job with something changed in it, as a document."""

    def put(path: Path, job: Job) -> None:
        held = json.loads(json.dumps(job))
        change(held)
        path.write_text(json.dumps(held), encoding="utf-8")

    return put


def _written(made: Callable[[Job], bytes]) -> Put:
    return lambda path, job: path.write_bytes(made(job))


def _text(job: Job) -> str:
    return json.dumps(job, ensure_ascii=False)


def _replaced(old: str, new: str) -> Put:
    def made(job: Job) -> bytes:
        assert old in _text(job), old
        return _text(job).replace(old, new, 1).encode("utf-8", "surrogatepass")

    return _written(made)


def _circuit(job: Job, at: int = 0) -> Job:
    return job["boards"][0]["circuits"][at]


def png(width: int, height: int) -> bytes:
    """A picture that says it is so large, with hardly anything in it."""

    def chunk(kind: bytes, body: bytes) -> bytes:
        return len(body).to_bytes(4, "big") + kind + body + zlib.crc32(kind + body).to_bytes(4, "big")

    head = width.to_bytes(4, "big") + height.to_bytes(4, "big") + b"\x08\x02\0\0\0"
    return (
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", head)
        + chunk(b"IDAT", zlib.compress(bytes(1 << 16)))
        + chunk(b"IEND", b"")
    )


def picture(body: bytes, **more: object) -> Job:
    """A picture of a board, with the digest it should have."""
    held = {
        "width": 9,
        "height": 9,
        "sha256": hashlib.sha256(body).hexdigest(),
        "data": base64.b64encode(body).decode(),
    }
    image = held | {name: value for name, value in more.items() if name in held}
    own = {name: value for name, value in more.items() if name not in held}
    return {
        "about": {"section": "boards", "board": "b1"},
        "name": "x.jpg",
        "caption": "The board",
        "image": image,
    } | own


_JPEG = b"\xff\xd8\xff"
_SNAG = {
    "id": "s9",
    "what": "Lid off",
    "where": "",
    "about": None,
    "raised_by": "Eve",
    "raised_on": "2026-03-02",
    "cleared": None,
}
_SEEN = {"firm": "Quenby", "number": "Q-1"}

CRAFTED_VALUES: Mapping[str, Put] = {
    # Letters and figures of the document as a whole.
    "sound, in UTF-16": _written(lambda job: _text(job).encode("utf-16")),
    "sound, in UTF-16 without a mark": _written(lambda job: _text(job).encode("utf-16-le")),
    "sound, in UTF-32": _written(lambda job: _text(job).encode("utf-32")),
    "sound, in Latin-1": _written(lambda job: _text(job).encode("latin-1", "replace")),
    "sound, with two marks before it": _written(lambda job: b"\xef\xbb\xbf" * 2 + _text(job).encode()),
    "sound, with zeros behind it": _written(lambda job: _text(job).encode() + bytes(9)),
    "letters written longer than they need": _replaced('"Zoë', '"Zo\udcc0'),
    "half a letter in a name": _replaced('"Zoë', '"\\ud800'),
    "half a letter, raw": _replaced('"Zoë', '"\ud800'),
    "half a letter in the name of a field": _replaced('"client"', '"\\udfff"'),
    "an escape code in the name of a field": _replaced('"client"', '"\\u001b]0;mine\\u0007"'),
    "letters turned about in the name of a field": _replaced('"client"', '"cl\u202eient"'),
    "a comment": _replaced('"client"', '/* it */ "client"'),
    "a comma too many": _replaced('"client"', ', "client"'),
    "quoted once": _replaced('"client"', "'client'"),
    "a figure beyond all": _replaced('"next_id": 4', '"next_id": 1e400'),
    "a figure below all": _replaced('"next_id": 4', '"next_id": -1e400'),
    "a zero below nothing": _replaced('"next_id": 4', '"next_id": -0'),
    "a broken figure": _replaced('"next_id": 4', '"next_id": 4.5'),
    "a whole figure with a point": _replaced('"next_id": 4', '"next_id": 4.0'),
    "no figure": _replaced('"next_id": 4', '"next_id": NaN'),
    "less than any figure": _replaced('"next_id": 4', '"next_id": -Infinity'),
    "a figure in another script": _replaced('"next_id": 4', '"next_id": ٤'),
    "a figure of sixteen": _replaced('"next_id": 4', '"next_id": 0x4'),
    "a figure that begins with nought": _replaced('"next_id": 4', '"next_id": 04'),
    # Ids.
    "next id used already": changed(lambda job: job.update(next_id=1)),
    "next id at the end of counting": changed(lambda job: job.update(next_id=2**63)),
    "two circuits of one id": changed(lambda job: _circuit(job, 1).update(id=_circuit(job)["id"])),
    "two boards of one id": changed(lambda job: job["boards"].append(job["boards"][0])),
    "a circuit with the id of a board": changed(lambda job: _circuit(job).update(id="b1")),
    "an id of another kind": changed(lambda job: _circuit(job).update(id="x2")),
    "an id with a path": changed(lambda job: _circuit(job).update(id="c/../../x")),
    "an id beyond counting": changed(lambda job: _circuit(job).update(id="c" + "9" * 40)),
    "an id of nothing": changed(lambda job: _circuit(job).update(id="")),
    "an id that begins with nought": changed(lambda job: _circuit(job).update(id="c02")),
    "an id in another script": changed(lambda job: _circuit(job).update(id="c٢")),
    "an id with an escape code": changed(lambda job: _circuit(job).update(id="c2\x1b[2J")),
    "two snags of one id": changed(lambda job: job.update(snags=[_SNAG, _SNAG])),
    "a snag with the id of a circuit": changed(lambda job: job.update(snags=[_SNAG | {"id": "c2"}])),
    # Words of lists.
    "a form set in small letters": changed(lambda job: job["chosen"].update(form_set="eic")),
    "a form set with a blank": changed(lambda job: job["chosen"].update(form_set="EIC ")),
    "a form set that is a list": changed(lambda job: job["chosen"].update(form_set=["EIC"])),
    "an edition unknown": changed(lambda job: job.update(edition="BS 7671:2099")),
    "an edition in small letters": changed(lambda job: job.update(edition=job["edition"].lower())),
    "a role in capitals": changed(lambda job: job["signatures"][0].update(role="DESIGN")),
    "a role of another form set": changed(lambda job: job["signatures"][0].update(role="inspected and tested")),
    "a role twice": changed(lambda job: job["signatures"].append(job["signatures"][0])),
    "a mark of no list": changed(lambda job: job["inspection"][0].update(mark="✔")),
    "a mark of another list": changed(lambda job: job["inspection"][0].update(mark="C1")),
    "an item of no list": changed(lambda job: job["inspection"][0].update(item="99.99")),
    "an item twice": changed(lambda job: job["inspection"].append(job["inspection"][0])),
    "observations on a certificate": changed(lambda job: job.update(observations=[{"id": "o9", "text": "x", "code": "C1"}])),
    # What only this program may say.
    "a stamp of an issue": changed(lambda job: job.update(issued={"at": "2026-03-02T16:30:00Z", "by": "Eve", "head": "0" * 64})),
    "a fingerprint of nothing": changed(lambda job: job["signatures"][0].update(fingerprint="")),
    "a fingerprint of great length": changed(lambda job: job["signatures"][0].update(fingerprint="f" * 100_000)),
    "laid aside": changed(lambda job: job.update(laid_aside=True)),
    "laid aside by a word": changed(lambda job: job.update(laid_aside="no")),
    "seen elsewhere": changed(lambda job: job["chosen"].update(seen=_SEEN)),
    "replaces what was never issued": changed(lambda job: job.update(replaces="A-0001", replaces_because="x")),
    "boxes waiting for a word by the thousand": changed(lambda job: job.update(unconfirmed=[{"section": "client", "box": "name"}] * 9_000)),
    "boxes waiting that are not there": changed(lambda job: job.update(unconfirmed=[{"section": "../..", "box": "\x1b"}])),
    "reasons about nothing": changed(lambda job: job.update(explanations=[{"check": "x", "place": {"section": "y"}, "reason": "z", "by": "e", "on": "2026-03-02"}])),
    # Days at the ends of the calendar.
    **{f"a snag of {day!r}": changed(lambda job, day=day: job.update(snags=[_SNAG | {"raised_on": day}])) for day in ("0001-01-01", "9999-12-31", "10000-01-01", "-0001-01-01", "2026-02-29", "02/03/2026", 0, 1e12)},
    **{f"signed at {at!r}": changed(lambda job, at=at: job["signatures"][0].update(at=at)) for at in ("0001-01-01T00:00:00+14:00", "9999-12-31T23:59:59-14:00", "2026-03-02T16:30:00", "2026-03-02T16:30:00 Z", "1970-01-01T00:00:00Z", 1.5)},
    # Boards that feed each other.
    "a board that feeds itself": changed(lambda job: job["boards"][0].update(supplied_from="DB1")),
    "boards in a circle": changed(lambda job: job.update(boards=[job["boards"][0] | {"id": f"b{at}", "designation": f"DB{at}", "supplied_from": f"DB{at % 9 + 1}", "circuits": []} for at in range(1, 10)])),
    "a circuit that feeds its own board": changed(lambda job: _circuit(job).update(feeds="DB1")),
    # Pictures.
    "a picture that is none": changed(lambda job: job.update(pictures=[picture(b"not a picture")])),
    "a picture of another kind": changed(lambda job: job.update(pictures=[picture(png(40_000, 40_000))])),
    "a picture that only begins as one": changed(lambda job: job.update(pictures=[picture(_JPEG + b"and then nothing")])),
    "a picture with another digest": changed(lambda job: job.update(pictures=[picture(_JPEG, sha256="0" * 64)])),
    "a picture in letters of no code": changed(lambda job: job.update(pictures=[picture(_JPEG, data="!" * 999)])),
    "a picture of no size": changed(lambda job: job.update(pictures=[picture(_JPEG, width=0)])),
    "a picture of a billion dots": changed(lambda job: job.update(pictures=[picture(_JPEG, width=10**9, height=10**9)])),
    "a picture from elsewhere": changed(lambda job: job.update(pictures=[picture(_JPEG, name="../../x\x1b[2J")])),
    "a picture of nothing there": changed(lambda job: job.update(pictures=[picture(_JPEG, about={"observation": "o99"})])),
    "pictures by the thousand": changed(lambda job: job.update(pictures=[picture(_JPEG)] * 1000)),
    "a picture of great size": changed(lambda job: job.update(pictures=[picture(_JPEG + bytes(2_000_000))])),
}  # fmt: skip
