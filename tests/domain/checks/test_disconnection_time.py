"""The disconnection time of a minor works, against Table 41.1 and 411.3.2."""

import pytest

from tests.domain.checks.jobs import RCD_30, found, job, verdict


@pytest.mark.parametrize(
    ("system", "circuit", "time", "expected"),
    [
        ("TN-S", {}, "0.4", "passes"),
        ("TN-S", {}, "0.41", "ask"),
        ("TN-S", {}, "0.2", "passes"),
        ("TN-S", {}, "5", "ask"),
        ("TN-S", {}, "400", "ask"),
        ("TN-S", {}, "N/A", "passes"),
        ("TN-S", {"rating": "40", "description": "Cooker"}, "5", "passes"),
        ("TN-S", {"rating": "40", "description": "Sockets"}, "5", "ask"),
        ("TN-S", {"description": "Submain to garage"}, "5", "passes"),
        ("TN-S", {"description": "Submain to garage"}, "5.1", "ask"),
        ("TT", RCD_30, "0.2", "passes"),
        ("TT", RCD_30, "0.4", "ask"),
        ("TT", RCD_30 | {"description": "Submain to garage"}, "1", "passes"),
    ],
)
def test_a_typed_time_is_no_longer_than_the_rule_gives(
    system: str, circuit: dict[str, str], time: str, expected: str
) -> None:
    made = job(circuit | {"disconnection_time": time}, form_set="MEIWC", supply={"system": system})
    assert verdict(made, "disconnection_time") == expected


def test_milliseconds_typed_for_seconds_are_asked_about() -> None:
    (finding,) = found(job({"disconnection_time": "400"}, form_set="MEIWC"), "disconnection_time")
    assert finding.says.endswith("Did you mean 0.4 s?")


FUSE = {"device_standard": "BS 88-3", "device_type": "N/A", "rating": "45", "r1_r2": "", "description": "Cooker"}


@pytest.mark.parametrize(
    ("time", "zs", "expected"), [("5", "0.80", "passes"), ("0.4", "0.80", "fails"), ("0.4", "0.45", "passes")]
)
def test_the_typed_time_settles_which_figure_zs_is_held_against(time: str, zs: str, expected: str) -> None:
    made = job(FUSE | {"zs": zs, "disconnection_time": time}, form_set="MEIWC")
    assert verdict(made, "zs", check="earth-fault-loop") == expected


def test_a_designer_may_ask_for_the_shorter_time_on_a_submain() -> None:
    submain = FUSE | {"description": "Submain to garage", "zs": "0.80"}
    assert verdict(job(submain), "zs", check="earth-fault-loop") == "passes"
    assert verdict(job(submain | {"disconnection_time": "0.4"}), "zs", check="earth-fault-loop") == "fails"
