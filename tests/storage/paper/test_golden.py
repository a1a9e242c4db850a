"""The papers of the demo say what they said; `python -m tests.storage.paper.golden` keeps what they are meant to say now."""

import difflib

import pytest

from tests.storage.paper.golden import KEPT, PAPERS, text_of


@pytest.mark.parametrize("name", PAPERS)
def test_a_paper_of_the_demo_says_what_is_kept_of_it(name: str):
    kept = (KEPT / f"{name}.txt").read_text(encoding="utf-8").splitlines()
    now = text_of(PAPERS[name]()).splitlines()
    assert now == kept, "\n".join(difflib.unified_diff(kept, now, "kept", "now", lineterm="", n=1))


def test_no_text_is_kept_of_a_paper_that_there_is_not():
    assert {each.stem for each in KEPT.iterdir()} == set(PAPERS)
