"""Mutation runs from the command line.

    python -m tests.mutation rules              each rule of the gate and each required box taken out, one at a time
    python -m tests.mutation gate [MUTANT ...]  the mutants of a room of rooms.toml, or some alone (pip install mutmut)

Both work beside the tree and touch nothing in it. LAST.md keeps what the last runs said, and why what survived does not matter.
"""

import sys

from tests.mutation.deleted_rules import deletions
from tests.mutation.rooms import rooms


def main() -> int:
    """Do what was typed; 1 where more survives than the room allows."""
    asked, *names = sys.argv[1:] or [""]
    if asked == "rules" and not names:
        alive = [*deletions()]
        sys.stdout.writelines(f"nobody noticed: {each}\n" for each in alive)
        return 1 if alive else 0
    if asked not in rooms():
        sys.stderr.write(f"{__doc__}\nRooms: {', '.join(rooms())}\n")
        return 2
    from tests.mutation.runs import mutated

    ran = mutated(asked, names)
    sys.stdout.writelines(f"### {each['name']} ({each['tests']} tests)\n{each['change']}\n\n" for each in ran.alive)
    low, high = ran.interval
    drawn = f" of {ran.count}, 95 % between {low:.1f} and {high:.1f}" if ran.tried < ran.count else ""
    sys.stdout.write(f"{asked}: {ran.tried} mutants{drawn}, {len(ran.alive)} alive, {ran.killed:.1f} % killed\n")
    return 0 if ran.killed >= rooms()[asked]["killed_at_least"] else 1


sys.exit(main())
