"""Which screen serves which step of a job."""

from collections.abc import Mapping

from tui.screens.circuits import CircuitsScreen
from tui.screens.details import DetailsScreen
from tui.screens.inspection import InspectionScreen
from tui.screens.issue import IssueScreen
from tui.screens.job_screen import JobScreen
from tui.screens.raised import RaisedScreen
from tui.screens.results import ResultsScreen
from tui.screens.review import ReviewScreen
from tui.steps import Step

SCREENS: Mapping[Step, type[JobScreen]] = {
    Step.DETAILS: DetailsScreen,
    Step.CIRCUITS: CircuitsScreen,
    Step.RESULTS: ResultsScreen,
    Step.INSPECTION: InspectionScreen,
    Step.RAISED: RaisedScreen,
    Step.REVIEW: ReviewScreen,
    Step.ISSUE: IssueScreen,
}
