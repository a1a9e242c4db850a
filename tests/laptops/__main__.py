"""The long runs: `python -m tests.laptops 200 10000` plays so many towns for so many steps each, and keeps what came of it.

`python -m tests.laptops kills FOLDER 50 50` kills programs on real logs, so many in each firm, in folders of their own.
"""

import sys
import time
from collections import Counter
from pathlib import Path

from tests.laptops.invariants import broken
from tests.laptops.killed import killed
from tests.laptops.simulation import LAPTOPS, Town

LAST, KILLED = (Path(__file__).with_name(name) for name in ("LAST.md", "KILLED.md"))


def main() -> int:
    """Play the towns, or kill programs; 1 where anything was broken."""
    if sys.argv[1:2] == ["kills"]:
        return _kill(Path(sys.argv[2]), [int(each) for each in sys.argv[3:]])
    towns, steps = (int(each) for each in (*sys.argv[1:3], "200", "1500")[:2])
    happened, wrong, begun = Counter[str](), list[str](), time.monotonic()
    for seed in range(towns):
        town = Town(seed)
        town.run(steps)
        town.heal()
        happened += town.happened
        happened["operations in the log of the office"] += len(town.office.store.order)
        found = broken(town)
        wrong += [f"seed {seed}: {each}" for each in found]
        sys.stdout.write("{}: {}\n".format(seed, found[:2] or "well"))
        sys.stdout.flush()
        # Whatever ends a long run, what it came to is kept.
        _keep(f"`python -m tests.laptops {towns} {steps}`: {seed + 1} of", towns, steps, begun, wrong, happened)
    return 1 if wrong else 0


def _keep(which: str, towns: int, steps: int, begun: float, wrong: list[str], happened: Counter[str]) -> None:
    took = time.monotonic() - begun
    what = f"{towns} towns, {steps} steps each, an office and {LAPTOPS} laptops; {took:.0f} s on two busy cores"
    lines = [
        "# An office and its laptops, played long",
        "",
        f"{which} {what}.",
        "",
        f"Broken: {len(wrong)}",
        *[f"- {each}" for each in wrong[:50]],
        "",
        "| what happened | times |",
        "|---|---|",
        *[f"| {what} | {count:,} |" for what, count in happened.most_common()],
    ]
    LAST.write_text("\n".join(lines) + "\n", encoding="utf-8")


def _kill(folder: Path, kills: list[int]) -> int:
    lines = ["# Programs of an office and two laptops, killed", ""]
    for firm, count in enumerate(kills, 1):
        for line in killed(folder / str(firm), count):
            lines.append(line)
            sys.stdout.write(f"{line}\n")
            sys.stdout.flush()
        KILLED.write_text("\n".join(lines) + "\n", encoding="utf-8")
    return 0 if sum(line.endswith(": 0") for line in lines) == len(kills) else 1


if __name__ == "__main__":
    sys.exit(main())
