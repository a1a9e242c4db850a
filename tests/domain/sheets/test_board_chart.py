from domain.sheets.board_chart import Notice, board_papers
from tests.builders import complete_certificate, complete_report, entered

CERTIFICATE = complete_certificate()


def _notices(job=CERTIFICATE) -> dict[str, Notice]:
    return {each.heading: each for each in board_papers(job, job.boards).notices}


def test_a_chart_has_a_row_for_each_way_with_what_it_feeds_and_what_protects_it():
    (chart,) = board_papers(CERTIFICATE, CERTIFICATE.boards).charts
    assert [row[0] for row in chart.rows] == [each.number for each in CERTIFICATE.boards[0].circuits]
    for row, circuit in zip(chart.rows, CERTIFICATE.boards[0].circuits, strict=True):
        if circuit.is_spare:
            assert row[1:] == ("Spare", "", "", "", "")
        else:
            assert row[1] == circuit.description
            assert circuit.rating.typed in row[3]
            assert circuit.live_csa.typed in row[5]


def test_labels_tell_the_day_of_the_inspection_and_of_the_next_as_dates():
    told = dict(_notices()["Inspection of this installation"].facts)
    assert told["Inspected and tested on"] == "2 March 2026"
    assert told["Next inspection recommended by"] == "2 March 2036"


def test_other_sources_have_a_label_only_where_there_are_any():
    assert "More than one source" not in _notices()
    with_solar = entered(CERTIFICATE, {"other_sources": "Solar panels on the roof, 3.6 kW"}, section="supply")
    assert dict(_notices(with_solar)["More than one source"].facts)["Other sources"].startswith("Solar")


def test_rcds_are_to_be_tested_where_a_board_has_one():
    assert "six months" in _notices(complete_report())["Residual current devices"].says
