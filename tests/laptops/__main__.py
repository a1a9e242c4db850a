"""The long run: `python -m tests.laptops 200 1500` plays so many towns for so many steps each, and keeps what came of it."""

import sys
import time
from collections import Counter
from pathlib import Path

from tests.laptops.invariants import broken
from tests.laptops.simulation import LAPTOPS, Town

LAST = Path(__file__).with_name("LAST.md")


def main() -> int:
    """Play the towns; 1 where anything was broken."""
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
    took = time.monotonic() - begun
    what = f"{towns} towns, {steps} steps each, an office and {LAPTOPS} laptops; {took:.0f} s on two busy cores"
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
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
