"""Loaded once before processes part: a job of each form set has been read, judged and laid out, so that the tables are there."""

from domain.gate.assessment import Pack, issue
from domain.job.exchange import job_from_json, job_to_json
from domain.sheets import sheets_of
from tests.builders import AT, INSPECTOR, complete_certificate, complete_minor_works, complete_report

for _each in (complete_certificate(), complete_minor_works(), complete_report()):
    _pack = issue(job_from_json(job_to_json(_each)), by=INSPECTOR, at=AT, people=())
    assert isinstance(_pack, Pack)
    sheets_of(_pack.job)
