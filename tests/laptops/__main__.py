"""The long runs: `python -m tests.laptops 200 10000` plays so many towns for so many steps each, and keeps what came of it.

With a file behind them (`200 10000 FILE`) each town played is a line of it, and what it has already is not played again.
`python -m tests.laptops kills FOLDER 100` kills so much on real logs of a firm in folders, and of one with its office on a server.
"""

import json
import os
import sys
import time
from collections import Counter
from pathlib import Path
from typing import Any

from tests.laptops.invariants import broken
from tests.laptops.killed import killed
from tests.laptops.simulation import LAPTOPS, Town
from tests.storage.database_server import running

LAST, KILLED = (Path(__file__).with_name(name) for name in ("LAST.md", "KILLED.md"))


def main() -> int:
    """Play the towns, or kill programs; 1 where anything was broken."""
    if sys.argv[1:2] == ["kills"]:
        return _kill(Path(sys.argv[2]), int((*sys.argv[3:], "100")[0]))
    towns, steps = (int(each) for each in (*sys.argv[1:3], "200", "1500")[:2])
    kept = Path(sys.argv[3]) if sys.argv[3:] else None
    lines = kept.read_text(encoding="utf-8").splitlines() if kept and kept.exists() else []
    played = [each for each in map(json.loads, lines) if each["steps"] == steps and each["seed"] < towns]
    for seed in sorted({*range(towns)} - {each["seed"] for each in played}):
        played.append(_play(seed, steps))
        sys.stdout.write("{}: {}\n".format(seed, played[-1]["broken"][:2] or "well"))
        sys.stdout.flush()
        if kept:
            with kept.open("a", encoding="utf-8") as more:
                more.write(json.dumps(played[-1]) + "\n")
        # Whatever ends a long run, what it came to is kept.
        _keep(towns, steps, played)
    return 1 if any(each["broken"] for each in played) else 0


def _play(seed: int, steps: int) -> dict[str, Any]:
    """What came of one town, with the seconds of the processor it took."""
    town, begun = Town(seed), time.process_time()
    town.run(steps)
    town.heal()
    town.happened["operations in the log of the office"] += len(town.office.store.order)
    took = time.process_time() - begun
    return {"seed": seed, "steps": steps, "took": took, "broken": broken(town), "happened": town.happened}


def _keep(towns: int, steps: int, played: list[dict[str, Any]]) -> None:
    took = sum(each["took"] for each in played)
    what = f"{len(played)} of {towns} towns, {steps} steps each, an office and {LAPTOPS} laptops; {took:.0f} s of the processor"
    wrong = [f"seed {each['seed']}: {said}" for each in played for said in each["broken"]]
    happened = sum((Counter[str](each["happened"]) for each in played), Counter[str]())
    lines = [
        "# An office and its laptops, played long",
        "",
        f"`python -m tests.laptops {towns} {steps}`: {what}.",
        "",
        f"Broken: {len(wrong)}",
        *[f"- {each}" for each in wrong[:50]],
        "",
        "| what happened | times |",
        "|---|---|",
        *[f"| {what} | {count:,} |" for what, count in happened.most_common()],
    ]
    LAST.write_text("\n".join(lines) + "\n", encoding="utf-8")


def _kill(folder: Path, kills: int) -> int:
    """Folders first, then a server of the run's own; what this computer remembers of the logs lies in the folder too."""
    os.environ["XDG_STATE_HOME"] = str(folder / "state")
    lines = [
        "# Programs of an office and two laptops, killed",
        "",
        f"`python -m tests.laptops kills FOLDER {kills}`",
        "",
    ]
    with running() as server:
        for name, at in (("folders", None), ("server", server)):
            for line in killed(folder / name, kills, at):
                sys.stdout.write(f"{line}\n")
                sys.stdout.flush()
                lines += [line] if "-" in line[:3] else []
            KILLED.write_text("\n".join(lines) + "\n", encoding="utf-8")
    return 0 if sum(line.endswith(": 0") for line in lines) == 2 else 1


if __name__ == "__main__":
    sys.exit(main())
