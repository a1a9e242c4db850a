"""The ladder from the command line.

    python -m tests.ladder sizes FOLDER 1000 10000 100000 1000000    every measure at every size, as a table
    python -m tests.ladder office FOLDER 100000                      the same on PostgreSQL and SQLite, in one run
    python -m tests.ladder moves FOLDER 10000 100000                 a log copied to a server as a move does it
    python -m tests.ladder bundles FOLDER 10000                      what a laptop did in weeks, taken in by its office at once
    python -m tests.ladder server-kills FOLDER 1000 5                a server killed among edits and papers, and started again
    python -m tests.ladder commands FOLDER 10000 100000              whole commands in processes of their own, with their memory
    python -m tests.ladder keyed FOLDER 40 400                       readings kept in one large job, in the real program
    python -m tests.ladder kills FOLDER 1000 100                     programs killed, and terminals hung up
    python -m tests.ladder typists FOLDER 1 20                       people typing at once, each in a terminal of their own
    python -m tests.ladder power-cuts FOLDER 600                     the disk as a cut would have left it (needs cc)

    python -m tests.ladder sequences FOLDER 1000                     commands at random on a real log, held against the gate
    python -m tests.ladder hostile FOLDER 5000                       files marred at random, given to whatever reads files
    python -m tests.ladder crafted FOLDER 1 2 3                      files made by hand, one of each kind, given to the same
    python -m tests.ladder read-in FOLDER 500                        reading in killed at each of its dealings with the log
    python -m tests.ladder no-links FOLDER 3                         the whole way of a log where FOLDER knows no hard links
    python -m tests.ladder attacks FOLDER 1                          every attack on a log with real papers, and what tend says
    python -m tests.ladder columns FOLDER 1                          every column of every table altered by plain SQL, and what tend tells
    python -m tests.ladder sound FOLDER 1500                         tend, restore and hand-over of sound issued jobs with their papers

FOLDER holds the logs it makes, and those it made are used again. Run it on a machine with nothing else to do.
"""

import sys
from pathlib import Path

from tests.ladder.attacked import attacked
from tests.ladder.bundles import carried
from tests.ladder.columns import altered_columns
from tests.ladder.commands import commanded
from tests.ladder.crafted import given_crafted
from tests.ladder.cuts import cut_off
from tests.ladder.hostile import given_hostile
from tests.ladder.killing import killed
from tests.ladder.large_job import keyed
from tests.ladder.moves import moved
from tests.ladder.no_links import without_links
from tests.ladder.office import side_by_side
from tests.ladder.reading_in import read_in_killed
from tests.ladder.sequences import sequences
from tests.ladder.server_killed import server_killed
from tests.ladder.sizes import climbed
from tests.ladder.sound_looks import looked_after
from tests.ladder.typists import typed_at_once


def main() -> int:
    """Do what was typed; the exit code."""
    runs = {
        "sizes": climbed,
        "commands": commanded,
        "keyed": keyed,
        "kills": killed,
        "power-cuts": cut_off,
        "office": side_by_side,
        "server-kills": server_killed,
        "moves": moved,
        "bundles": carried,
        "typists": typed_at_once,
        "sequences": sequences,
        "hostile": given_hostile,
        "crafted": given_crafted,
        "read-in": read_in_killed,
        "no-links": without_links,
        "attacks": attacked,
        "columns": altered_columns,
        "sound": looked_after,
    }
    if len(sys.argv) < 4 or sys.argv[1] not in runs or not all(word.isdecimal() for word in sys.argv[3:]):
        sys.stderr.write(__doc__ or "")
        return 2
    folder = Path(sys.argv[2])
    folder.mkdir(parents=True, exist_ok=True)
    for line in runs[sys.argv[1]](folder, [int(word) for word in sys.argv[3:]]):
        sys.stdout.write(f"{line}\n")
        sys.stdout.flush()
    return 0


sys.exit(main())
