"""Who was in the register, and what it let them sign, before each turn of a log."""

import pytest

from domain.job.signature import Role
from domain.register.entries import Person
from storage.opening import open_as_it_is
from storage.upkeep.people_then import PeopleThen
from tests.builders import AT
from tests.storage.issuing import WHO

NED, NED_SIGNS = Person(name="Ned Farthing"), Person(name="Ned Farthing", signs=(Role.INSPECTED,))
AGNES = Person(name="Agnes Quill", signs=(Role.DESIGN,))
ASKED = ("NED  farthing", "Agnes Quill", "Nobody Known", "", "ned farthing")


@pytest.fixture
def then(home, sqlite_log) -> PeopleThen:
    """Ned in training, Agnes, Ned who signs, Agnes gone: one turn each."""
    ned = sqlite_log.register(NED, who=WHO, at=AT)
    agnes = sqlite_log.register(AGNES, who=WHO, at=AT)
    sqlite_log.register(NED_SIGNS, entry_id=ned.id, who=WHO, at=AT)
    sqlite_log.register(AGNES, entry_id=agnes.id, who=WHO, at=AT, retired=True)
    file = open_as_it_is(home)
    found = PeopleThen(file)
    file.close()
    return found


def test_people_are_those_of_the_register_before_a_turn_each_once_in_the_order_asked(then: PeopleThen) -> None:
    assert [then.named(ASKED, before) for before in range(1, 6)] == [
        (),
        (NED,),
        (NED, AGNES),
        (NED_SIGNS, AGNES),
        (NED_SIGNS,),
    ]
    assert then.named(("Agnes Quill", "Ned Farthing"), 3) == (AGNES, NED)
    assert then.named(("Nobody Known",), 9) == then.named((), 9) == ()
