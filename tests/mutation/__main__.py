"""Mutation runs from the command line.

    python -m tests.mutation rules          each rule of the gate and each required box taken out, one at a time
    python -m tests.mutation gate           a room of rooms.toml mutated by mutmut (pip install mutmut)

Both work on a copy of the tree. LAST.md keeps what the last runs said, and why what survived does not matter.
"""

import sys

from tests.mutation.deleted_rules import deletions
from tests.mutation.runs import mutated, rooms


def main() -> int:
    """Do what was typed; 1 where more survives than the room allows."""
    if sys.argv[1:] == ["rules"]:
        alive = [*deletions()]
        sys.stdout.writelines(f"nobody noticed: {each}\n" for each in alive)
        return 1 if alive else 0
    if len(sys.argv) != 2 or sys.argv[1] not in rooms():
        sys.stderr.write(f"{__doc__}\nRooms: {', '.join(rooms())}\n")
        return 2
    room = rooms()[sys.argv[1]]
    mutants = mutated(room)
    sys.stdout.writelines(f"### {name}\n{diff}\n\n" for name, diff in mutants.alive)
    alive = len(mutants.alive)
    sys.stdout.write(f"{sys.argv[1]}: {mutants.count} mutants, {alive} alive, {mutants.killed:.1f} % killed\n")
    return 0 if mutants.killed >= room["killed_at_least"] else 1


sys.exit(main())
