from typing import get_args

import pytest

from domain.editing.audit_text import _SAID, audit_text
from domain.editing.commands import (
    AddCircuit,
    ClearSnag,
    Command,
    Enter,
    Fill,
    MoveCircuit,
    Observe,
    RaiseSnag,
    RemoveCircuit,
    Sign,
)
from domain.inspection.observation import Code
from domain.job.signature import Role
from domain.place import Place
from tests.builders import AT, INSPECTOR, ON, complete_certificate, enter, snagged

JOB = snagged(complete_certificate())
ZS = Place(section="boards", board="b1", circuit="c2", box="zs")
RATING = ZS.model_copy(update={"box": "rating"})


@pytest.mark.parametrize(
    ("command", "said"),
    [
        (Enter(place=ZS, text="0.52"), "DB1, circuit 1 Kitchen sockets, Measured Zs: 0.52 (was 0.49)"),
        (
            Fill(entries=(Enter(place=ZS, text="0.52"), Enter(place=RATING, text="32"))),
            "2 boxes filled, from {0}, Measured Zs to {0}, Protective device, rating: 0.52, 32".format(
                "DB1, circuit 1 Kitchen sockets"
            ),
        ),
        (Enter(place=ZS, text=""), "DB1, circuit 1 Kitchen sockets, Measured Zs: emptied (was 0.49)"),
        (
            enter("work", "extent", "One\nTwo"),
            "The work, Extent covered, and what is not: One Two (was Both circuits, from",
        ),
        (AddCircuit(board="b1", like="c2"), "Circuit added to DB1, its details like DB1, circuit 1 Kitchen sockets"),
        (RemoveCircuit(board="b1", circuit="c2"), "Removed: DB1, circuit 1 Kitchen sockets"),
        (MoveCircuit(board="b1", circuit="c2", to=1), "DB1, circuit 1 Kitchen sockets: moved to row 2"),
        (RaiseSnag(what="Lid\x1b[31m gone", by=INSPECTOR, on=ON), "Snag raised: Lid[31m gone"),
        (ClearSnag(snag=JOB.snags[0].id, by=INSPECTOR, on=ON, how="Fitted"), "Snag 1 cleared: Fitted"),
        (Observe(finding="Cracked", code=Code.C2), "Observation written: C2, Cracked"),
        (Sign(role=Role.DESIGN, name="Robin", at=AT), "Signed by Robin: design"),
    ],
)
def test_the_trail_says_what_was_done_and_where(command, said):
    assert audit_text(JOB, command).startswith(said)


def test_a_long_text_does_not_fill_the_trail():
    assert len(audit_text(JOB, enter("work", "extent", "word " * 1000))) < 300


def test_every_command_has_its_words():
    assert set(get_args(get_args(Command)[0])) == set(_SAID)


def test_a_place_that_is_gone_is_still_named():
    assert audit_text(JOB, Enter(place=Place(section="boards", board="b9", circuit="c9", box="zs"), text="1"))
