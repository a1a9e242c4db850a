from domain.gate.assessment import assess
from tests.builders import complete_certificate, entered
from tui.widgets.job_bar import state_of


def state(changes: dict[str, str], **more: dict[str, str]) -> str:
    job = entered(complete_certificate(sign=False), changes, board="b1", circuit="c2")
    for section, boxes in more.items():
        job = entered(job, boxes, section=section)
    return state_of(job, assess(job))


def test_the_bar_names_what_is_wrong_by_its_kind_and_calls_only_a_figure_over_a_limit() -> None:
    assert state({"polarity": "N"}).startswith("1 not right")
    assert state({"ir_earth": "0.2"}).startswith("1 under limit")
    assert state({}, earthing={"bonded_gas": "N"}).startswith("1 not bonded")
    assert state({"ir_earth": "0.2", "ir_live": "0.2", "polarity": "N"}).startswith("2 under limit, 1 not right")


def test_more_kinds_than_two_are_only_counted() -> None:
    changed = {"ir_earth": "0.2", "polarity": "N", "rcd_button": "N"}
    assert state(changed, earthing={"bonded_gas": "N"}).startswith("4 failing")
