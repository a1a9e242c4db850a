"""Documents made by hand to stop, swell or fool whoever brings jobs in, by what is wrong with each; `job` is a whole one."""

import json
import os
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

Put = Callable[[Path, dict[str, Any]], object]

_MOMENTS: tuple[Any, ...] = (
    *("", " ", "now", "9999-12-31T23:59:59-23:59", "0001-01-01T00:00:00+23:59", "0000-00-00T00:00:00Z"),
    *("2026-02-30T00:00:00Z", "2026-13-01T00:00:00Z", "2026-03-02T25:00:00Z", "2026-03-02T23:60:00Z"),
    *("2026-03-02T23:59:60Z", "2026-03-02T11:00:00+99:99", "2026-03-02T11:00:00+24:00", "2026-03-02", "+12026-03-02T11:00:00Z"),
    *("2026-03-02T11:00:00Z\n", "2026-03-02T11:00:00Z\x1b[2J", "２０２６-03-02T11:00:00Z", "2026-W10-1T11:00:00Z", "P1Y"),
    *(0, -1, 1e300, -1e300, 10**18, 10**400, 2**63, True, None, [], {}, "1" * 1_000_000, "2026-03-02T11:00:00." + "9" * 1_000_000),
)  # fmt: skip
_NUMBERS: tuple[Any, ...] = (-1, 0, 0.5, 1e308, 2**63, 10**300, 10**4200, "5", "", True, None, [1], {"a": 1})
_TEXTS: tuple[Any, ...] = (
    *("x" * 6001, "x" * 3_000_000, "\x00", "\x1b]0;mine\x07", "\x1b[6n", "\x9b31m", "\u202eabc", "\u2066a\u2069", "\ufeff", "\ud800"),
    *("\udfff\ud800", "\U000e0001" * 9, "a\u0301" * 3000, "\r\n" * 3000, "\t", "../../../etc/passwd", "=cmd|' /C calc'!A0"),
    *("#read(\"/etc/passwd\")", "</script><script>", "%n%s", "A-0001'); DROP TABLE job; --", 1, 1.5, True, None, [], {}, ["a"] * 1000),
)  # fmt: skip
_WHOLE: Mapping[str, bytes] = {
    "no bytes": b"",
    "one space": b" ",
    "spaces": b" " * 3_999_999,
    "bytes of no letters": bytes(range(256)),
    "another encoding": '{"a": "é"}'.encode("utf-16"),
    "a mark and nothing": b"\xef\xbb\xbf",
    "a word": b"null",
    "a text": b'"job"',
    "a figure": b"1e999",
    "no figure": b"[NaN]",
    "two documents": b"{}{}",
    "an end too many": b"{}]",
    "a list of nothing": b"[[]]",
    "a list of lists": b"[" * 900 + b"]" * 900,
    "lists in lists": b"[" * 3_999_999,
    "objects in objects": b'{"a":' * 600_000,
    "a million lists": b"[" + b"[]," * 1_300_000 + b"[]]",
    "twenty million lists": b"[" + b"[]," * 20_000_000 + b"[]]",
    "ten million objects": b"[" + b'{"a":1},' * 7_000_000 + b"{}]",
    "a million jobs of nothing": b"[" + b"{}," * 1_300_000 + b"{}]",
    "fields by the hundred thousand": b"{" + b",".join(b'"k%d":1' % at for at in range(300_000)) + b"}",
    "a field twice": b'{"number": "", "number": ""}',
    "a field twice, a hundred thousand times": b"{" + b'"a":1,' * 600_000 + b'"a":1}',
    "a figure of a million digits": b'{"next_id": ' + b"1" * 3_900_000 + b"}",
    "figures of thousands of digits": b"[" + (b"1" * 4299 + b",") * 900 + b"1]",
    "escapes": b'["' + b"\\u0041" * 600_000 + b'"]',
    "half letters": b'["' + b"\\ud800" * 600_000 + b'"]',
    "an escape that is none": b'["\\x41"]',
    "no end of a text": b'{"client": "' + b"a" * 3_000_000,
    "one byte beyond the largest": b" " * 64_000_001,
}


def _set(*steps: str | int) -> Callable[[Any], Put]:
    """Put a value at a place of the job."""

    def put_at(value: Any) -> Put:
        def put(path: Path, job: dict[str, Any]) -> None:
            held = json.loads(json.dumps(job))
            at = held
            for step in steps[:-1]:
                at = at[step]
            at[steps[-1]] = value
            path.write_text(json.dumps(held), encoding="utf-8")

        return put

    return put_at


def _times(count: int, *steps: str | int) -> Put:
    """The first entry of a list, so many times."""

    def put(path: Path, job: dict[str, Any]) -> None:
        at: Any = job
        for step in steps:
            at = at[step]
        _set(*steps)([at[0] if at else {}] * count)(path, job)

    return put


def _shown(value: Any) -> str:
    return repr(value)[:24]


CRAFTED_JOBS: Mapping[str, Put] = {
    "pipe": lambda path, job: os.mkfifo(path),
    "folder": lambda path, job: path.mkdir(),
    "device of zeros": lambda path, job: path.symlink_to("/dev/zero"),
    "link to itself": lambda path, job: path.symlink_to(path),
    "memory of a process": lambda path, job: path.symlink_to("/proc/self/mem"),
    "a terabyte of nothing": lambda path, job: (path.touch(), os.truncate(path, 1 << 40)),
    **{f"whole: {name}": (lambda path, job, body=body: path.write_bytes(body)) for name, body in _WHOLE.items()},
    **{f"{at}, moment {_shown(value)}": _set("signatures", 0, "at")(value) for at, value in enumerate(_MOMENTS)},
    **{f"{at}, number {_shown(value)}": _set("next_id")(value) for at, value in enumerate(_NUMBERS)},
    **{f"{at}, version {_shown(value)}": _set("schema_version")(value) for at, value in enumerate(_NUMBERS)},
    **{f"{at}, name {_shown(value)}": _set("client", "name")(value) for at, value in enumerate(_TEXTS)},
    **{f"{at}, reading {_shown(value)}": _set("boards", 0, "circuits", 0, "zs")(value) for at, value in enumerate(_TEXTS)},
    **{f"{at}, number of a job {_shown(value)}": _set("number")(value) for at, value in enumerate(_TEXTS[:20])},
    **{f"issued {_shown(value)}": _set("issued")(value) for value in (True, {}, {"by": "x"}, [], "x", 1)},
    **{f"replaces {_shown(value)}": _set("replaces")(value) for value in ("A-0001", "../x", "x" * 300, None, 1)},
    **{f"{count} of {' '.join(map(str, at))}": _times(count, *at) for count in (2, 2500, 19_000, 60_000) for at in (("boards",), ("boards", 0, "circuits"), ("signatures",), ("inspection",), ("snags",))},
    "list of sixty megabytes, the last wrong": lambda path, job: path.write_text("[" + (json.dumps(job) + ",") * (60_000_000 // len(json.dumps(job))) + "{}]"),
}  # fmt: skip
