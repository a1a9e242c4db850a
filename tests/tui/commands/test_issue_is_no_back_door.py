"""`ohmfolio issue FILE` holds what no key would let by: nothing is written, and every reason is told."""

import json
import tempfile
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from domain.job.job import Job
from tests.builders import complete_certificate, signed
from tests.examples import examples
from tests.storage.back_doors import DOORS, NOBODY
from tests.tui.commands.command_line import ohmfolio, written


@examples(0.02)
@given(doors=st.lists(st.sampled_from(DOORS), min_size=1, max_size=3, unique=True), nobody=NOBODY)
def test_a_file_with_what_no_key_lets_by_is_held_and_leaves_nothing(doors, nobody) -> None:
    job: Job = complete_certificate(sign=False)
    for door in doors:
        job = door(job, nobody)
    with tempfile.TemporaryDirectory() as folder:
        home, to = Path(folder, "home"), Path(folder, "to")
        to.mkdir()
        said = ohmfolio("issue", written(signed(job), Path(folder, "job.json")), "--to", to, "--json", home=home)
        assert said.code == 1, said
        assert said.error == ""
        answer = json.loads(said.out)
        assert answer["may_issue"] is False
        assert answer["reasons"]
        assert list(to.iterdir()) == []
        assert list(home.rglob("*.pdf")) == []
