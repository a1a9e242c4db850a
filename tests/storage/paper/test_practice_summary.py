"""The summary of practice is one page, however much went wrong and whoever practised."""

import pytest

from domain.coach.case import cases
from domain.coach.summary import summary_of
from storage.pdf import bind_summary
from tests.domain.coach.histories import BEGUN, answer
from tests.storage.paper.pages import Paper


@pytest.mark.parametrize(("letters", "who"), [("", "Ann"), ("r", "Wren Tansy"), ("ww", "W" * 200)])
def test_the_summary_is_one_page_that_says_what_it_is_not(letters: str, who: str) -> None:
    every = cases()
    longest = sorted(every, key=lambda case: -len(case.told + case.ask + case.right_words))
    history = tuple(
        answer(case, letter, day=at, minute=minute)
        for at, case in enumerate(longest)
        for minute, letter in enumerate(letters)
    )
    paper = Paper(bind_summary(summary_of(who, history, every, BEGUN.date())))
    assert paper.bound.pages == len(paper.pages) == 1
    for words in (
        "Summary of practice",
        "Not an assessment of competence",
        who[:40],
        "Practise next",
        "safe isolation",
    ):
        assert words in paper.said, words
